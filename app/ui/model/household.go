package model

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/exercises"
	"feltpage/exercises/steps"
)

// HouseholdStore is what the Household and the Start screens need beyond the
// rest.
type HouseholdStore interface {
	HasDemo() (bool, error)
	RemoveDemo() error
	Families() ([]record.Family, error)
	SaveFamily(record.Family) (record.Family, error)
	Expressions() ([]record.Expression, error)
	SaveExpression(record.Expression) (record.Expression, error)
	Backup(path string) error
	// Restore puts a backup in place of what is open and goes on from there. A
	// backup that is no good is refused before anything is changed.
	Restore(from string) error
	Export(w io.Writer) error
	EraseAll() error
	EraseLearner(id string) error
	Dir() string
}

// Names of the household's settings.
const (
	SettingLearner   = "guide.learner"   // whose screens are open
	SettingNumbers   = "guide.numbers"   // local numbers to call, written by the guide
	SettingLightness = "guide.lightness" // system, dark, or "" for light
	SettingPaper     = "print.paper"     // A4 or Letter
)

// settingApart, with a learner's id, is how far apart the choices lie.
const settingApart = "learner.apart."

// Apart lists how far apart choices can lie, from easy to hard.
var Apart = []steps.Distance{steps.Wide, steps.Mixed, steps.Close}

// ApartFor gives how far apart the choices of a learner lie: Mixed until
// somebody sets it.
func (h *House) ApartFor(learner string) steps.Distance {
	kept, err := h.Store.Setting(settingApart + learner)
	if d := steps.Distance(kept); err == nil && slices.Contains(Apart, d) {
		return d
	}
	return steps.Mixed
}

// SetApart keeps it. It goes with the learner when he or she is erased.
func (h *House) SetApart(learner string, d steps.Distance) error {
	return h.Store.SetSetting(settingApart+learner, string(d))
}

// Setup is the form of the first run: one learner.
type Setup struct {
	Nickname string
	Mode     exercises.AnswerMode
	Look     record.Look
	Words    string // words used already, one a line or between commas
	Trouble  string
}

// NewSetup gives the form with what most start from.
func NewSetup() *Setup { return &Setup{Mode: exercises.ByTap, Look: record.DefaultLook} }

// Named reports whether a nickname is written.
func (s *Setup) Named() bool { return strings.TrimSpace(s.Nickname) != "" }

// Keep sets the learner up with his or her words. A word that names a family
// is put there; the rest wait under "not placed yet".
func (s *Setup) Keep(h *House) (record.Learner, error) {
	name := strings.Join(strings.Fields(s.Nickname), " ")
	if name == "" {
		s.Trouble = say.T("start.no-name")
		return record.Learner{}, errors.New(s.Trouble)
	}
	l, err := h.Store.SaveLearner(record.Learner{Nickname: name, Mode: s.Mode, Look: s.Look})
	if err != nil {
		s.Trouble = say.Error(err)
		return l, fmt.Errorf("setting up a learner: %w", err)
	}
	for _, form := range SplitWords(s.Words) {
		w := record.Word{Learner: l.ID, Form: form, Shade: 0.5}
		if h.Table != nil {
			if f := h.Table.FamilyOf(form); len(f) > 0 {
				w.Family = f[0].Family
			}
			w.Language = LevelOf(h.Table, w.Family, form)
		}
		if w, err := h.Store.SaveWord(w); err != nil {
			s.Trouble = say.Error(err)
			return l, fmt.Errorf("keeping the word %q: %w", w.Form, err)
		}
	}
	s.Trouble = ""
	return l, nil
}

// SplitWords cuts a list of words written by a person: one a line, or between
// commas or semicolons. Each word stands once.
func SplitWords(s string) []string {
	var out []string
	seen := map[string]bool{}
	for _, f := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		w := strings.Join(strings.Fields(f), " ")
		if k := strings.ToLower(w); w != "" && !seen[k] {
			seen[k] = true
			out = append(out, w)
		}
	}
	return out
}

// ExportTo writes the raw data into a file, readable by its owner alone.
func ExportTo(s HouseholdStore, path string) (err error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return fmt.Errorf("writing the data: %w", err)
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	return s.Export(f)
}

// OwnFamilyID makes the id of a family of the household's own from its name.
func OwnFamilyID(name string) string {
	return "own-" + strings.ReplaceAll(strings.ToLower(strings.Join(strings.Fields(name), " ")), " ", "-")
}
