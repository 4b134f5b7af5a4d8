package characters

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"

	"feltpage/nlp"
)

//go:generate go run ./gennouns

var (
	//go:embed nouns.txt
	nounsText string
	//go:embed people.txt
	peopleText string
	//go:embed names.txt
	namesText string
	//go:embed places.txt
	placesText string
)

// What a noun does besides naming somebody.
const (
	plain = iota
	kin   // somebody's: his mother
	role  // may be somebody's: her master
	age   // says little but age and sex: the old man
	vague // any being: the creature
)

// A noun is what the lexicon says of a common noun.
type noun struct {
	kind   string // nlp.Person ...; "" is no character
	gender string
	does   int
	usual  string // gender that is likely, not told: the captain of an old tale is a man
	title  bool   // stands before a name
	tgen   string // gender it then tells
}

type lexicon struct {
	nouns  map[string]noun
	first  map[string]string // first names, lower case: gender, or "fm"
	places map[string]bool   // lower case
	ends   map[string]bool   // last words of place names
	other  map[string]bool   // months, peoples and other capitals that name nobody
}

var words = sync.OnceValue(func() *lexicon {
	l, err := load(nounsText, peopleText, namesText, placesText)
	if err != nil {
		panic(err) // a test loads the same embedded files
	}
	return l
})

func load(nouns, people, names, places string) (*lexicon, error) {
	l := &lexicon{nouns: make(map[string]noun, 10000), first: map[string]string{}, places: map[string]bool{}, ends: map[string]bool{}, other: map[string]bool{}}
	for _, f := range []struct {
		name, text string
		line       func([]string) error
	}{
		{"nouns", nouns, l.nounLine},
		{"people", people, l.peopleLine},
		{"names", names, l.nameLine},
		{"places", places, l.placeLine},
	} {
		if !strings.Contains(f.text, "# Source:") || !strings.Contains(f.text, "# Licence:") {
			return nil, fmt.Errorf("characters: %s.txt states no source or licence", f.name)
		}
		for n, line := range strings.Split(f.text, "\n") {
			w := strings.Fields(line)
			if len(w) == 0 || strings.HasPrefix(line, "#") {
				continue
			}
			if err := f.line(w); err != nil {
				return nil, fmt.Errorf("characters: %s.txt line %d: %w", f.name, n+1, err)
			}
		}
	}
	return l, nil
}

var kindOf = map[string]string{"p": nlp.Person, "a": nlp.Animal, "b": nlp.Being, "g": nlp.Group, "t": nlp.Thing, "-": ""}

// noun looks a noun up by its lemma; a compound that is not listed counts as
// its last part (pancake-woman, grandchildren).
func (l *lexicon) noun(lemma string) (noun, bool) {
	if n, ok := l.nouns[lemma]; ok {
		return n, true
	}
	if k := strings.LastIndexByte(lemma, '-'); k > 0 && k < len(lemma)-1 {
		if n, ok := l.nouns[lemma[k+1:]]; ok && n.kind != nlp.Thing {
			return n, true
		}
	}
	if part, ok := strings.CutSuffix(lemma, "ren"); ok && strings.HasSuffix(part, "child") {
		n, ok := l.nouns[part]
		return n, ok
	}
	if lemma == "talisman" || lemma == "ottoman" || lemma == "specimen" || lemma == "regimen" || lemma == "acumen" {
		return noun{}, false
	}
	for _, end := range [...]string{"woman", "women", "man", "men", "maid", "wife", "boy", "girl", "smith", "herd", "monger", "wright"} {
		if len(lemma) > len(end)+2 && strings.HasSuffix(lemma, end) {
			switch end {
			case "women":
				end = "woman"
			case "men":
				end = "man"
			case "smith", "herd", "monger", "wright":
				return noun{kind: nlp.Person, usual: nlp.Male}, true
			}
			n := l.nouns[end]
			n.does = plain
			return n, true
		}
	}
	return noun{}, false
}

func (l *lexicon) nounLine(w []string) error {
	if len(w) < 2 || kindOf[w[1]] == "" {
		return fmt.Errorf("want noun, kind and perhaps gender, have %q", strings.Join(w, " "))
	}
	n := noun{kind: kindOf[w[1]]}
	if len(w) > 2 {
		n.gender = w[2]
	}
	l.nouns[w[0]] = n
	return nil
}

func (l *lexicon) peopleLine(w []string) error {
	kind, ok := kindOf[w[0]]
	if !ok || len(w) < 4 {
		return fmt.Errorf("want kind, gender, use and nouns, have %q", strings.Join(w, " "))
	}
	gender, usual := strings.Trim(w[1], "."), ""
	if g, ok := strings.CutSuffix(gender, "?"); ok {
		gender, usual = "", g
	}
	does, ok := map[string]int{".": plain, "kin": kin, "role": role, "age": age, "vague": vague, "title": plain}[w[2]]
	if !ok {
		return fmt.Errorf("unknown use %q", w[2])
	}
	for _, word := range w[3:] {
		n, had := l.nouns[word]
		switch {
		case usual != "":
			n.usual = usual
			if n.kind == "" {
				n.kind = kind
			}
			l.nouns[word] = n
		case w[2] == "title":
			n.title, n.tgen, n.kind = true, gender, kind
			if n.gender == "" {
				n.gender = gender
			}
			l.nouns[word] = n
		case kind == "":
			delete(l.nouns, word)
		case kind == nlp.Thing && had:
		case kind == nlp.Being && gender != "" && had && n.kind == nlp.Being:
			n.gender = gender
			l.nouns[word] = n
		default:
			n.kind = kind
			if gender != "" {
				n.gender = gender
			}
			if does != plain || n.does == plain {
				n.does = does
			}
			l.nouns[word] = n
		}
	}
	return nil
}

func (l *lexicon) nameLine(w []string) error {
	g := strings.TrimSuffix(w[0], ":")
	if g != nlp.Female && g != nlp.Male {
		return fmt.Errorf("want f: or m:, have %q", w[0])
	}
	for _, n := range w[1:] {
		n = strings.ToLower(n)
		if had := l.first[n]; had != "" && had != g {
			l.first[n] = "fm"
			continue
		}
		l.first[n] = g
	}
	return nil
}

func (l *lexicon) placeLine(w []string) error {
	to := map[string]map[string]bool{"place:": l.places, "end:": l.ends, "other:": l.other}[w[0]]
	if to == nil {
		return fmt.Errorf("want place:, end: or other:, have %q", w[0])
	}
	for _, n := range w[1:] {
		to[strings.ToLower(n)] = true
	}
	return nil
}
