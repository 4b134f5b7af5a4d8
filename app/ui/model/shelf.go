package model

import (
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/corpus"
	"feltpage/corpus/ingest"
	"feltpage/corpus/level"
	"feltpage/nlp/pipeline"
)

// StoryRow is one story on the shelf.
type StoryRow struct {
	Story   record.Story
	Level   corpus.Level
	Band    string // how it reads, in plain words
	Minutes string // "about 4 minutes"
	Ready   bool   // the guide has read it
	State   string // in words
	Own     bool   // brought by the household
}

// ShelfOrder says how the shelf is sorted.
type ShelfOrder int

// Orders of the shelf.
const (
	EasiestFirst ShelfOrder = iota
	ByTitle
	ShortestFirst
)

// Shelf is the list of stories, with search.
type Shelf struct {
	house   *House
	rows    []StoryRow
	all     int
	words   string
	order   ShelfOrder
	levels  map[string]corpus.Level // by text hash: measured once
	Trouble string
	Changed func()
}

// FillShelf puts the starter stories on the shelf that are not there yet. A
// story that the guide took off stays off.
func (h *House) FillShelf(starters []corpus.Story) error {
	have, err := h.Store.Stories()
	if err != nil {
		return fmt.Errorf("reading the shelf: %w", err)
	}
	known := map[string]bool{}
	for _, s := range have {
		known[s.Hash] = true
	}
	for _, s := range starters {
		if known[s.Hash] {
			continue
		}
		if _, err := h.Store.AddStory(record.Story{Story: s}); err != nil {
			return fmt.Errorf("putting %q on the shelf: %w", s.Title, err)
		}
	}
	return nil
}

// NewShelf reads the shelf.
func NewShelf(h *House) *Shelf {
	s := &Shelf{house: h, levels: map[string]corpus.Level{}, Changed: func() {}}
	s.load()
	return s
}

func (s *Shelf) load() {
	stories, err := s.house.Store.SearchStories(s.words)
	if err != nil {
		s.Trouble = say.Error(err)
		return
	}
	s.Trouble, s.rows = "", nil
	for _, x := range stories {
		if !x.Away {
			s.rows = append(s.rows, s.row(x))
		}
	}
	if strings.TrimSpace(s.words) == "" {
		s.all = len(s.rows)
		s.sort()
	}
}

func (s *Shelf) sort() {
	sort.SliceStable(s.rows, func(i, j int) bool {
		a, b := s.rows[i], s.rows[j]
		switch s.order {
		case ByTitle:
			return strings.ToLower(a.Story.Title) < strings.ToLower(b.Story.Title)
		case ShortestFirst:
			return a.Level.Words < b.Level.Words
		}
		return a.Level.Grade < b.Level.Grade
	})
}

func (s *Shelf) row(x record.Story) StoryRow {
	l, ok := s.levels[x.Hash]
	if !ok {
		l = level.Of(x.Text)
		s.levels[x.Hash] = l
	}
	r := StoryRow{Story: x, Level: l, Band: say.T(level.Band(l)), Minutes: Minutes(l.Minutes), Ready: x.ReadOn != "",
		Own: x.Story.ID == "" || x.Story.ID == x.Hash}
	if r.Ready {
		r.State = say.T("shelf.state.read", say.S{"day": DayName(x.ReadOn)})
	} else {
		r.State = say.T("shelf.state.unread")
	}
	return r
}

// Minutes says a reading time in whole minutes.
func Minutes(m float64) string {
	n := int(math.Round(m))
	if n < 1 {
		return say.T("shelf.minutes.under-one")
	}
	return Count("shelf.minutes", n)
}

// Rows lists what the search finds; all stories where nothing is searched.
func (s *Shelf) Rows() []StoryRow { return s.rows }

// All counts the stories on the shelf, whatever is searched.
func (s *Shelf) All() int { return s.all }

// Words gives what is searched.
func (s *Shelf) Words() string { return s.words }

// Order gives how the shelf is sorted.
func (s *Shelf) Order() ShelfOrder { return s.order }

// Search searches titles and texts.
func (s *Shelf) Search(words string) {
	s.words = words
	s.load()
	s.Changed()
}

// SortBy sorts the shelf.
func (s *Shelf) SortBy(o ShelfOrder) {
	s.order = o
	s.sort()
	s.Changed()
}

// Reload reads the shelf again.
func (s *Shelf) Reload() {
	s.load()
	s.Changed()
}

// Adding is a story on its way in: pasted or opened, then read by the engine
// away from the screen, then put on the shelf. Whatever goes wrong, the text
// and the title stay as they were written.
type Adding struct {
	house  *House
	Text   string // pasted, exactly
	Title  string
	Source string // where it is from, in the guide's words
	File   string // name of an opened file, or ""

	Busy    string   // what is going on, or ""
	Stage   int      // how many of Stages of it are done
	Stages  int      // 0 where that is not known
	Trouble string   // one sentence, or ""
	Remarks []string // what to look at, from the import
	Done    *record.Story

	cancel  context.CancelFunc
	run     int
	Changed func()
}

// NewAdding starts with nothing.
func NewAdding(h *House) *Adding { return &Adding{house: h, Changed: func() {}} }

// OpenFile takes in a file. It is read away from the screen; at most what a
// story may hold is read of it.
func (a *Adding) OpenFile(path string) {
	a.OpenReader(filepath.Base(path), func() (io.ReadCloser, error) { return os.Open(path) })
}

// OpenReader is OpenFile for something that can be opened otherwise.
func (a *Adding) OpenReader(name string, open func() (io.ReadCloser, error)) {
	if a.Busy != "" {
		return
	}
	_, run := a.begin(say.T("adding.opening", say.S{"file": name}))
	var story corpus.Story
	var err error
	a.house.background(func() {
		var r io.ReadCloser
		if r, err = open(); err != nil {
			err = &ingest.Error{Name: name, Kind: ingest.ErrRead, Cause: err}
			return
		}
		defer r.Close()
		story, err = ingest.Read(r, name)
	}, func() {
		if run != a.run {
			return // cancelled meanwhile
		}
		a.Busy = ""
		if err != nil {
			a.Trouble = say.Error(err)
			a.Changed()
			return
		}
		a.Text, a.File, a.Remarks = story.Text, name, nil
		for _, r := range story.Remarks {
			a.Remarks = append(a.Remarks, ReasonText(r))
		}
		if strings.TrimSpace(a.Title) == "" {
			a.Title = story.Title
		}
		a.Changed()
	})
}

func (a *Adding) begin(busy string) (context.Context, int) {
	ctx, cancel := context.WithCancel(context.Background())
	a.run++
	a.cancel, a.Busy, a.Trouble, a.Stage, a.Stages = cancel, busy, "", 0, 0
	a.Changed()
	return ctx, a.run
}

// Cancel stops what is going on; the text stays.
func (a *Adding) Cancel() {
	if a.Busy == "" {
		return
	}
	a.cancel()
	a.run++
	a.Busy = ""
	a.Trouble = say.T("errors.cancelled")
	a.Changed()
}

// Add reads the text and puts the story on the shelf. Done is set when it is
// there.
func (a *Adding) Add() {
	if a.Busy != "" {
		return
	}
	story, err := ingest.Text(a.Text, strings.TrimSpace(a.Title))
	if err != nil {
		a.Trouble = say.Error(err)
		a.Changed()
		return
	}
	story.Origin.FileName = a.File
	if s := strings.TrimSpace(a.Source); s != "" {
		story.Origin.Source = s
	}
	if had, err := a.house.Store.StoryByHash(story.Hash); err == nil && !had.Away {
		a.Trouble = say.T("adding.have", say.S{"title": had.Title})
		a.Done = &had
		a.Changed()
		return
	}
	n := len(strings.Fields(story.Text))
	ctx, run := a.begin(say.T("adding.reading", say.S{"words": thousands(n)}))
	var kept record.Story
	ctx = pipeline.WithProgress(ctx, func(done, of int) {
		a.house.post(func() {
			if run == a.run {
				a.Stage, a.Stages = done, of
				a.Changed()
			}
		})
	})
	a.house.background(func() {
		analysis, e := a.house.analyze(ctx, story.Text)
		if e != nil {
			err = e
			return
		}
		if err = ctx.Err(); err != nil {
			return // cancelled while it was read: nothing is kept
		}
		if kept, err = a.house.Store.AddStory(record.Story{Story: story}); err != nil {
			return
		}
		err = a.house.Store.PutAnalysis(kept.Hash, analysis)
	}, func() {
		if run != a.run {
			return
		}
		a.Busy = ""
		if err != nil {
			a.Trouble = say.Error(err)
		} else {
			a.Done = &kept
		}
		a.Changed()
	})
}

// thousands writes a number with a thin space between thousands.
func thousands(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "\u2009" + s[i:]
	}
	return s
}
