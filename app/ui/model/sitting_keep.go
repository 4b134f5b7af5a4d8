package model

import (
	"slices"
	"strings"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/exercises"
)

// feelingChoice gives the choice of this moment's Feeling step, if one was
// made.
func (s *Sitting) feelingChoice() (exercises.Choice, bool) {
	for n := s.step; n >= 0; n-- {
		if s.steps[s.moment][n].Kind != exercises.Feeling {
			continue
		}
		i := s.standingAnswer(s.moment, n)
		if i < 0 {
			continue
		}
		a := s.given[i].Answer.Answer
		for _, c := range a.Shown {
			if slices.Contains(a.ChoiceIDs, c.ID) {
				return c, true
			}
		}
		if w := strings.TrimSpace(a.Said); w != "" && len(strings.Fields(w)) == 1 {
			return exercises.Choice{Text: w}, true
		}
	}
	return exercises.Choice{}, false
}

// wordForm gives the word that an experience told in And-you would be noted
// under: the feeling word chosen in this moment.
func (s *Sitting) wordForm() string {
	c, ok := s.feelingChoice()
	if !ok {
		return ""
	}
	return c.Text
}

// keepExperience notes what was told under the learner's word. A word that is
// not in the book yet is put there; it is the learner's from now on.
func (s *Sitting) keepExperience(told record.Answer) {
	c, ok := s.feelingChoice()
	if !ok {
		return
	}
	i := slices.IndexFunc(s.plan.Words, func(w record.Word) bool {
		return w.ID == c.ID || strings.EqualFold(w.Form, c.Text)
	})
	if i < 0 {
		w, err := s.store.SaveWord(record.Word{Learner: s.plan.Learner.ID, Form: c.Text, Family: c.Family, Shade: 0.5, Language: LevelOf(s.plan.Table, c.Family, c.Text)})
		if err != nil {
			s.trouble = "sitting.trouble.not-kept"
			return
		}
		s.plan.Words = append(s.plan.Words, w)
		i = len(s.plan.Words) - 1
	}
	by := say.T("words.by-guide")
	if s.plan.Learner.Mode == exercises.ByType {
		by = s.plan.Learner.Nickname
	}
	e, err := s.store.AddExperience(record.Experience{
		Learner: s.plan.Learner.ID, WordID: s.plan.Words[i].ID, What: told.Answer.Said, Sitting: s.sit.ID, WrittenBy: by,
	})
	if err != nil {
		s.trouble = "sitting.trouble.not-kept"
		return
	}
	s.noted[told.ID] = e.ID
}

// forgetExperience takes an experience out of the word book again when the
// answer it was told in is taken back.
func (s *Sitting) forgetExperience(answer string) {
	id, ok := s.noted[answer]
	if !ok {
		return
	}
	if err := s.store.RemoveExperience(id); err != nil {
		s.trouble = "sitting.trouble.still-kept"
		return
	}
	delete(s.noted, answer)
}
