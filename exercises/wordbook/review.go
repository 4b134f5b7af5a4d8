package wordbook

import (
	"sort"
	"time"
)

// leastRecall is the chance of recall at which a word should be met again.
const leastRecall = .9

// Fading is a word that may fade.
type Fading struct {
	Word   Word
	Recall float64 // chance, 0 to 1, that it comes back now
	Since  int     // days since it was last met
	Due    string  // day from which it should be met again
}

// Fade gives the words that should be met again by the day, the most faded
// first, ties by form. Words never met are not among them: they are offered in
// their own time, not reviewed. A day that cannot be read gives nothing.
func (b Book) Fade(day string) []Fading {
	today, ok := parseDay(day)
	if !ok {
		return nil
	}
	var out []Fading
	for _, word := range b.Words {
		if word.Away {
			continue
		}
		m, last, ok := b.memory(word, today)
		if !ok {
			continue
		}
		since := days(last, today)
		due := last.AddDate(0, 0, max(1, int(m.Interval(leastRecall)+.5)))
		if due.After(today) {
			continue
		}
		out = append(out, Fading{word, m.Recall(float64(since)), since, due.Format(time.DateOnly)})
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Recall != out[j].Recall {
			return out[i].Recall < out[j].Recall
		}
		return shadeLess(Word{Form: out[i].Word.Form, ID: out[i].Word.ID}, Word{Form: out[j].Word.Form, ID: out[j].Word.ID})
	})
	return out
}

// memory follows a word through its history up to today. Tying a word to an
// experience is meeting it as when it came with a prompt.
func (b Book) memory(word Word, today time.Time) (Memory, time.Time, bool) {
	type meeting struct {
		day time.Time
		g   Rating
	}
	var all []meeting
	add := func(day string, g Rating) {
		if d, ok := parseDay(day); ok && !d.After(today) {
			all = append(all, meeting{d, g})
		}
	}
	for _, e := range word.Experiences {
		add(e.Day, Barely)
	}
	for _, u := range b.Uses {
		if u.WordID == word.ID {
			add(u.Day, u.rating())
		}
	}
	if len(all) == 0 {
		return Memory{}, time.Time{}, false
	}
	sort.SliceStable(all, func(i, j int) bool {
		if !all[i].day.Equal(all[j].day) {
			return all[i].day.Before(all[j].day)
		}
		return all[i].g < all[j].g
	})
	var m Memory
	last := all[0].day
	for _, x := range all {
		m = m.Met(x.g, float64(days(last, x.day)))
		last = x.day
	}
	return m, last, true
}

// rating turns a use into a rating. How an answer came is what is known of how
// well the word came; the mapping is our own.
func (u Use) rating() Rating {
	switch {
	case u.Daily:
		return Easy
	case u.Alone && u.Fits:
		return Came
	case u.Fits:
		return Barely
	}
	return Lost
}

func parseDay(s string) (time.Time, bool) {
	t, err := time.Parse(time.DateOnly, s)
	return t, err == nil
}

// days counts calendar days from a to b.
func days(a, b time.Time) int { return int(b.Sub(a).Hours() / 24) }
