package ui

import (
	"errors"
	"fmt"
	"math/rand/v2"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
	"feltpage/exercises"
	"feltpage/exercises/marking"
	"feltpage/exercises/steps"
)

// OpenSitting gives the full-window sitting for what is asked; done is called
// once when it has ended or was stopped, with its id.
func OpenSitting(p *Program, r model.SittingRequest, done func(sittingID string)) fyne.CanvasObject {
	p.now = view{}
	s, err := p.newSitting(r)
	if err != nil {
		return sittingTrouble(err, func() { done("") })
	}
	x := newSittingScreen(p.app, p.win, s, p.deps.Observer, done)
	x.listen(p.win.Canvas())
	return x.root
}

// newSitting makes the sitting from what is kept of the learner.
func (p *Program) newSitting(r model.SittingRequest) (*model.Sitting, error) {
	book, err := p.house.Book(r.Learner.ID)
	if err != nil {
		return nil, err
	}
	words, err := p.deps.Store.Words(r.Learner.ID)
	if err != nil {
		return nil, fmt.Errorf("reading the words: %w", err)
	}
	seed := int64(1)
	if p.deps.Rand != nil {
		seed = p.deps.Rand.Int64()
	}
	kind := r.Kind
	if r.Resume != nil {
		kind = r.Resume.Kind
	}
	// Where growth is measured the choices lie as far apart as ever.
	apart, measure := steps.Mixed, kind == record.Baseline || kind == record.Probe
	if !measure {
		apart = p.house.ApartFor(r.Learner.ID)
	}
	offered := map[int]bool{} // moments that offer a new word
	plan := model.SittingPlan{
		SittingRequest: r, Words: words, Table: p.house.Table, Seed: seed, Now: p.deps.Now,
		Steps: func(m exercises.Moment, n int, seed int64) []exercises.Step {
			before := false
			for i := range n {
				before = before || offered[i]
			}
			out := steps.Build(m, r.Analysis, p.house.Table, book, rand.New(rand.NewPCG(uint64(seed), uint64(n))), steps.Options{
				Short: kind == record.Short, Measure: measure, NoOffer: before, Distance: apart,
			})
			for _, s := range out {
				for _, c := range s.Choices {
					offered[n] = offered[n] || c.Role == exercises.RoleOffer
				}
			}
			return out
		},
		Judge: func(m exercises.Moment, s exercises.Step, a exercises.Answer) exercises.Mark {
			return marking.Judge(marking.Context{Text: r.Story.Text, Table: p.house.Table, Book: book}, m, s, a)
		},
	}
	return model.NewSitting(p.deps.Store, plan)
}

// sittingTrouble says that there is nothing to read, or that it cannot start.
func sittingTrouble(err error, back func()) fyne.CanvasObject {
	key := "sitting.trouble.start"
	if errors.Is(err, model.ErrNothingToRead) {
		key = "sitting.trouble.no-moment"
	}
	return container.New(&middle{}, parts.Stack(look.L, parts.NewWords(say.T(key), look.Heading),
		parts.AtLeft(parts.NewButton(say.T("sitting.back"), parts.Main, back))))
}
