package demo

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"

	"feltpage/app/ui/model"
	"feltpage/exercises"
	"feltpage/nlp"
)

// pupil answers as an invented learner might: by chance, better as the weeks go
// and worse where a moment is hard. It knows the key, as no learner does, and
// aims at it or beside it; what it gets is for the program's own rules to say.
type pupil struct {
	*person
	rng   *rand.Rand
	weeks float64 // since the beginning
}

// chance is true n times in a hundred.
func (p *pupil) chance(n int) bool { return p.rng.IntN(100) < n }

func (p *pupil) sees(m exercises.Moment) bool {
	odds := p.skill + p.gain*p.weeks - 2*m.Difficulty
	return p.rng.Float64() < 1/(1+math.Exp(-odds))
}

// most is more turns than any sitting needs: each step takes a few.
const most = 2000

var errEndless = errors.New("the sitting does not end")

// answerAll goes through a sitting to its end.
func (p *pupil) answerAll(g *model.Sitting, day planned) error {
	for range most {
		v := g.View()
		switch v.Phase {
		case model.Ended:
			return nil
		case model.Feedback:
			switch {
			case v.LookAgain && p.chance(45):
				g.LookAgain()
				p.answer(g, day.moments[v.Moment], day.tale, p.chance(60))
			case v.CanBack && p.chance(2): // "no, wait"
				g.Back()
			default:
				if p.chance(3) {
					g.IHelped()
				}
				g.Next()
			}
		case model.Asking:
			if day.stops && v.Moment > 0 {
				g.Stop()
				g.Close()
				continue
			}
			p.ask(g, v, day)
		}
	}
	return errEndless
}

// ask meets one question.
func (p *pupil) ask(g *model.Sitting, v model.SittingView, day planned) {
	m := day.moments[v.Moment]
	switch {
	case v.Step == exercises.AndYou:
		p.andYou(g, m)
	case v.Step == exercises.CouldHelp:
		p.couldHelp(g)
	case p.chance(5):
		g.Skip()
		return
	case p.chance(7):
		g.Stand(v.Standing[p.rng.IntN(len(v.Standing))].ID)
	case v.Step == exercises.Body && p.chance(8):
		g.SetAboutSelf(true)
		w := p.words[p.rng.IntN(len(p.words))]
		if len(w.Places) > 0 {
			g.OpenPlace(w.Places[0])
		}
		if v.CanSay {
			g.Say(w.Form)
		}
	case p.sees(m):
		p.answer(g, m, day.tale, true)
		return
	case v.CanHelp && p.chance(65):
		for range 1 + p.rng.IntN(3) {
			g.LittleHelp()
		}
		p.answer(g, m, day.tale, p.chance(80))
		return
	default:
		p.answer(g, m, day.tale, false)
		return
	}
	g.Next()
}

func (p *pupil) andYou(g *model.Sitting, m exercises.Moment) {
	for _, f := range m.Key.Fits {
		if told, ok := p.likeMe[f]; ok && p.chance(60) {
			delete(p.likeMe, f) // nobody tells the same thing every day
			g.Say(told)
			g.SetKeepWord(p.chance(40))
			return
		}
	}
	if p.chance(60) {
		g.Stand(exercises.StandNotTelling)
	} else {
		g.Stand(exercises.StandNothing)
	}
}

func (p *pupil) couldHelp(g *model.Sitting) {
	if len(p.person.couldHelp) > 0 && p.chance(60) {
		g.Say(p.person.couldHelp[p.rng.IntN(len(p.person.couldHelp))])
		return
	}
	g.Stand(exercises.StandDontKnow)
}

// answer gives an answer to the open step, at the key or beside it, and goes
// on.
func (p *pupil) answer(g *model.Sitting, m exercises.Moment, t *tale, at bool) {
	v := g.View()
	switch {
	case v.Step == exercises.Feeling:
		p.feeling(g, v, m, at)
	case v.Step == exercises.Body:
		p.body(g, v, m, at)
	case v.PointText:
		p.point(g, v, m, t, at)
	}
	if p.Mode == exercises.BySpeak && p.chance(4) {
		g.Steadied()
	}
	if p.chance(3) {
		g.IHelped()
	}
	g.Next()
	if g.View().Phase == model.Asking && g.View().Hint != "" { // nothing could be chosen
		g.Stand(exercises.StandCantTell)
		g.Next()
	}
}

// family gives the family that a shown choice stands for.
func (p *pupil) family(id string) string {
	for _, w := range p.words {
		if w.ID == id {
			return w.Family
		}
	}
	return id
}

func (p *pupil) feeling(g *model.Sitting, v model.SittingView, m exercises.Moment, at bool) {
	if p.Mode == exercises.BySpeak && v.CanSay && v.Level < exercises.FewerChoices && p.chance(60) {
		if said := p.word(m, at); said != "" {
			g.Say(said)
			return
		}
	}
	var hit, miss []string
	for _, c := range v.Choices {
		if slices.Contains(m.Key.Fits, p.family(c.ID)) {
			hit = append(hit, c.ID)
		} else {
			miss = append(miss, c.ID)
		}
	}
	p.pick(g, hit, miss, at)
}

func (p *pupil) pick(g *model.Sitting, hit, miss []string, at bool) {
	if !at {
		hit, miss = miss, hit
	}
	if len(hit) == 0 {
		hit = miss
	}
	if len(hit) > 0 {
		g.Choose(hit[p.rng.IntN(len(hit))])
	}
}

// word gives a word of the learner's own for a family that fits, or for one
// that does not.
func (p *pupil) word(m exercises.Moment, at bool) string {
	var out []string
	for _, w := range p.words {
		if slices.Contains(m.Key.Fits, w.Family) == at {
			out = append(out, w.Form)
		}
	}
	if len(out) == 0 {
		return ""
	}
	return out[p.rng.IntN(len(out))]
}

func (p *pupil) body(g *model.Sitting, v model.SittingView, m exercises.Moment, at bool) {
	var places []string
	for _, x := range v.Places {
		told := slices.ContainsFunc(m.Key.Body, func(b exercises.BodySign) bool { return b.Place == x.ID })
		if told == at {
			places = append(places, x.ID)
		}
	}
	if len(places) == 0 {
		places = append(places, v.Places[p.rng.IntN(len(v.Places))].ID)
	}
	place := places[p.rng.IntN(len(places))]
	g.OpenPlace(place)
	var hit, miss []string
	for _, c := range g.View().Choices {
		if slices.ContainsFunc(m.Key.Body, func(b exercises.BodySign) bool { return c.ID == b.Place+"/"+b.Sign }) {
			hit = append(hit, c.ID)
		} else {
			miss = append(miss, c.ID)
		}
	}
	if p.chance(85) { // else the place alone
		p.pick(g, hit, miss, at)
	}
}

func (p *pupil) point(g *model.Sitting, v model.SittingView, m exercises.Moment, t *tale, at bool) {
	e := m.Key.Evidence[p.rng.IntN(len(m.Key.Evidence))]
	words := e.Span.Of(t.Text)
	if v.Step == exercises.Reason && p.Mode == exercises.BySpeak && at && p.chance(50) {
		g.Say("It says " + words)
		return
	}
	if at {
		g.SetSpans([]nlp.Span{e.Span})
		return
	}
	// Somewhere else in the passage, or the right sentence as a whole.
	if p.chance(40) && m.Span.Contains(e.Sentence) {
		g.SetSpans([]nlp.Span{e.Sentence})
		return
	}
	var other []nlp.Span
	for _, s := range t.analysis.Doc.Sentences {
		if m.Span.Contains(s.Span) && !slices.ContainsFunc(m.Key.Evidence, func(e exercises.Evidence) bool { return e.Span.Overlaps(s.Span) }) {
			other = append(other, s.Span)
		}
	}
	if len(other) == 0 {
		other = append(other, e.Sentence)
	}
	g.SetSpans([]nlp.Span{other[p.rng.IntN(len(other))]})
}
