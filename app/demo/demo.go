// Package demo makes the invented demo household: a grandmother who keeps a
// seaside bakery reads with two cousins, Juniper (11) and Moss (8), over eight
// weeks up to yesterday. It has nothing that real use has not: the starter
// stories as the reading engine reads them, sittings answered through the same
// view model as on screen, marks by the same rules, some by the guide. Who they
// are and what they tell lies in household.txt; how they answer is a stochastic
// pupil (pupil.go) whose chance of answering alone grows a little.
//
// Every row is marked as demo, and the store takes them all out in one action.
package demo

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"time"

	"feltpage/app/record"
	"feltpage/app/store"
	"feltpage/corpus"
	"feltpage/exercises"
	"feltpage/exercises/moments"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// Engine reads a text, as the reading engine does.
type Engine interface {
	Analyze(ctx context.Context, text string) (*nlp.Analysis, error)
}

// ErrHere says that the demo household is here already.
var ErrHere = errors.New("the demo household is here already")

// Seed makes the demo household as it would stand on the day of now, all of it
// or, on an error, nothing. The same stories, engine, now and seed give the
// same rows. It is ErrHere where there is a demo household already.
func Seed(ctx context.Context, st *store.Store, engine Engine, stories []corpus.Story, now time.Time, seed int64) error {
	if here, err := st.HasDemo(); err != nil || here {
		if err == nil {
			err = ErrHere
		}
		return fmt.Errorf("making the demo household: %w", err)
	}
	h, err := parse(embedded)
	if err != nil {
		return fmt.Errorf("making the demo household: %w", err)
	}
	table, err := feelings.Load()
	if err != nil {
		return fmt.Errorf("making the demo household: %w", err)
	}
	// Reading takes longest; the store waits for nothing meanwhile.
	var tales []*tale
	for _, s := range stories {
		a, err := engine.Analyze(ctx, s.Text)
		if err != nil {
			return fmt.Errorf("making the demo household: reading %q: %w", s.Title, err)
		}
		tales = append(tales, &tale{Story: s, analysis: a, moments: moments.Choose(a, table)})
	}
	var key [32]byte
	binary.LittleEndian.PutUint64(key[:], uint64(seed))
	chance := rand.NewChaCha8(key)
	c := &clock{}
	err = st.With(store.Options{Now: c.now, Rand: chance}).Together(func(st *store.Store) error {
		s := &seeding{ctx: ctx, st: st, table: table, tales: tales, today: now, clock: c, rng: rand.New(chance)}
		return s.all(h)
	})
	if err != nil {
		return fmt.Errorf("making the demo household: %w", err)
	}
	return nil
}

// tale is a starter story with its reading.
type tale struct {
	corpus.Story
	row      record.Story
	analysis *nlp.Analysis
	moments  []exercises.Moment
}

// clock tells the household's time, which goes on by a few seconds with each
// thing done.
type clock struct{ at time.Time }

func (c *clock) now() time.Time {
	c.at = c.at.Add(7 * time.Second)
	return c.at
}

type seeding struct {
	ctx   context.Context
	st    *store.Store
	table *feelings.Table
	tales []*tale
	today time.Time
	clock *clock
	rng   *rand.Rand
}

// go to a time of day some days ago, on the clock of the wall.
func (s *seeding) goTo(ago, hour, minute int) {
	y, m, d := s.today.Date()
	s.clock.at = time.Date(y, m, d-ago, hour, minute, 0, 0, s.today.Location())
}

// length is how many days ago the household began.
const length = 58

func (s *seeding) all(h *household) error {
	s.goTo(length, 9, 0)
	for _, t := range s.tales {
		r := record.Story{Story: t.Story}
		r.Demo = true
		var err error
		if t.row, err = s.st.AddStory(r); err != nil {
			return err
		}
		if !t.row.Demo {
			continue // the real household's: whether it was read is for its guide to say
		}
		if err := s.st.PutAnalysis(t.Hash, t.analysis); err != nil {
			return err
		}
		if err := s.st.TickRead(t.row.Meta.ID, true); err != nil {
			return err
		}
	}
	for _, x := range h.expressions {
		if _, err := s.st.SaveExpression(x); err != nil {
			return err
		}
	}
	for _, who := range h.people {
		if err := s.live(who); err != nil {
			return fmt.Errorf("%s: %w", who.Nickname, err)
		}
	}
	return nil
}

// live lets one learner's weeks go by, day after day.
func (s *seeding) live(who *person) (err error) {
	s.goTo(length, 9, 30)
	if who.Learner, err = s.st.SaveLearner(who.Learner); err != nil {
		return err
	}
	for i := range who.words {
		who.words[i].Learner = who.ID
		if who.words[i], err = s.st.SaveWord(who.words[i]); err != nil {
			return err
		}
	}
	p := &pupil{person: who, rng: s.rng}
	plan := s.plan(who)
	for ago := length; ago > 0; ago-- {
		s.goTo(ago, 8, 40)
		if err := s.tell(who, ago); err != nil {
			return err
		}
		for _, day := range plan {
			if day.ago != ago {
				continue
			}
			s.goTo(ago, 10, 5+s.rng.IntN(20))
			if err := s.sit(p, day); err != nil {
				return fmt.Errorf("%d days ago: %w", ago, err)
			}
		}
		if err := s.ctx.Err(); err != nil {
			return err
		}
	}
	return nil
}

// tell keeps what was told on a day outside a sitting.
func (s *seeding) tell(who *person, ago int) error {
	day := s.clock.at.Format(time.DateOnly)
	id := func(form string) string {
		return who.words[slices.IndexFunc(who.words, func(w record.Word) bool { return w.Form == form })].ID
	}
	for _, x := range who.happened {
		if x.ago == ago {
			e := x.Experience
			e.Learner, e.WordID, e.HappenedOn = who.ID, id(x.form), day
			if _, err := s.st.AddExperience(e); err != nil {
				return err
			}
		}
	}
	for _, x := range who.used {
		if x.ago == ago {
			u := record.WordUse{Learner: who.ID, WordID: id(x.form), UsedOn: day, Note: x.What}
			if _, err := s.st.AddWordUse(u); err != nil {
				return err
			}
		}
	}
	for _, x := range who.notes {
		if x.ago == ago {
			x.what.Learner = who.ID
			if _, err := s.st.AddBodyNote(x.what); err != nil {
				return err
			}
		}
	}
	for _, x := range who.phases {
		if x.ago == ago {
			x.what.Learner, x.what.On = who.ID, day
			if _, err := s.st.AddPhaseLine(x.what); err != nil {
				return err
			}
		}
	}
	return nil
}
