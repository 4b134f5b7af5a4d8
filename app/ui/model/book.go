package model

import (
	"fmt"
	"slices"
	"strings"

	"feltpage/app/record"
	"feltpage/exercises"
	"feltpage/exercises/growth"
	"feltpage/exercises/wordbook"
	"feltpage/nlp/feelings"
)

// BookOf makes the word book from what is kept of one learner.
func BookOf(words []record.Word, told []record.Experience, daily []record.WordUse, given []record.Marked) wordbook.Book {
	var b wordbook.Book
	for _, w := range words {
		x := wordbook.Word{ID: w.ID, Form: w.Form, Family: w.Family, Sense: w.Sense, Places: w.Places, Shade: w.Shade,
			Language: w.Language, Added: w.Day, Away: w.Away}
		for _, e := range told {
			if e.WordID != w.ID {
				continue
			}
			day := e.HappenedOn
			if day == "" {
				day = e.Day
			}
			var places []string
			if e.Place != "" {
				places = []string{e.Place}
			}
			x.Experiences = append(x.Experiences, wordbook.Experience{Day: day, What: e.What, Places: places})
		}
		b.Words = append(b.Words, x)
	}
	for _, u := range daily {
		b.Uses = append(b.Uses, wordbook.Use{WordID: u.WordID, Day: u.UsedOn, Alone: true, Fits: true, Daily: true})
	}
	for _, m := range given {
		if m.Withdrawn {
			continue
		}
		a := m.Answer.Answer
		v := m.Effective().Value
		alone := a.Prompt == exercises.Alone && a.Entry == exercises.Alone && a.Try <= 1 && !m.Helped && !a.GuideHelp && !a.Steadied && !a.Overheard
		use := func(id string) {
			b.Uses = append(b.Uses, wordbook.Use{WordID: id, Moment: m.Moment.ID, Day: m.SittingDay, Alone: alone,
				Fits: v == exercises.Fits || v == exercises.Unmarked})
		}
		inWords := b.Said(a.Said)
		for _, w := range b.Words {
			said := slices.ContainsFunc(inWords, func(x wordbook.Word) bool { return x.ID == w.ID })
			chosen := slices.ContainsFunc(a.Shown, func(c exercises.Choice) bool {
				return slices.Contains(a.ChoiceIDs, c.ID) && strings.EqualFold(c.Text, w.Form)
			})
			if said || chosen || slices.Contains(a.ChoiceIDs, w.ID) {
				use(w.ID)
			}
		}
	}
	return b
}

// LevelOf gives the language level of a word: that of the shipped words of the
// family, or "" for a word of the learner's own making.
func LevelOf(t *feelings.Table, family, form string) string {
	if t == nil {
		return ""
	}
	f, _ := t.Family(family)
	has := func(words []string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return strings.EqualFold(w, form) })
	}
	switch {
	case has(f.Plain):
		return wordbook.Plain
	case has(f.Rich):
		return wordbook.Rich
	}
	return ""
}

// Book reads the word book of a learner.
func (h *House) Book(learner string) (wordbook.Book, error) {
	words, err := h.Store.Words(learner)
	if err != nil {
		return wordbook.Book{}, fmt.Errorf("reading the words: %w", err)
	}
	told, err := h.Store.Experiences(learner)
	if err != nil {
		return wordbook.Book{}, fmt.Errorf("reading the experiences: %w", err)
	}
	given, err := h.Store.Marked(learner)
	if err != nil {
		return wordbook.Book{}, fmt.Errorf("reading the answers: %w", err)
	}
	return h.book(learner, words, told, given)
}

// book makes the word book from what was read already.
func (h *House) book(learner string, words []record.Word, told []record.Experience, given []record.Marked) (wordbook.Book, error) {
	daily, err := h.Store.WordUses(learner)
	if err != nil {
		return wordbook.Book{}, fmt.Errorf("reading the uses of words: %w", err)
	}
	return BookOf(words, told, daily, given), nil
}

// Items turns answers into what growth counts. A mark of the guide's stands
// before the program's.
func Items(given []record.Marked) []growth.Item {
	out := make([]growth.Item, 0, len(given))
	for _, m := range given {
		a := m.Answer.Answer
		i := growth.Item{
			Sitting: m.Answer.Sitting, Day: m.SittingDay, Moment: m.Moment.ID, CueKind: m.Moment.Kind,
			Step: m.Step.Kind, Value: m.Effective().Value, Standing: a.Standing,
			Prompt: a.Prompt, Entry: a.Entry, Try: a.Try, Helped: m.Helped || a.GuideHelp, Steadied: a.Steadied,
			Overheard: a.Overheard, Repeat: a.Repeat, Withdrawn: m.Withdrawn, AboutSelf: a.AboutSelf,
			Difficulty: m.Moment.Difficulty,
		}
		if len(m.Moment.Key.Weights) > 0 {
			i.Family = m.Moment.Key.Weights[0].Family
		} else if len(m.Moment.Key.Fits) > 0 {
			i.Family = m.Moment.Key.Fits[0]
		}
		if m.Program != nil {
			i.Program = m.Program.Value
		}
		switch {
		case m.Blind != nil:
			i.Blind, i.Guide = true, m.Blind.Value
		case m.Guide != nil:
			i.Guide = m.Guide.Value
		}
		out = append(out, i)
	}
	return out
}
