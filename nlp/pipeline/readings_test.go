package pipeline

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
)

var update = flag.Bool("update", false, "write the golden files anew")

const (
	goldenReadings = "testdata/readings/report.golden"
	howToUpdate    = "if the change is meant, write the report anew and look through it: go test ./nlp/pipeline -run Readings -update"

	// How far a count may fall behind the report before the test fails. The
	// engine is worked on in many places at once, and one item lost for two
	// won is no reason to stop; more than this in one category is.
	margin = 3
)

// tally counts what the engine did with the required findings of one category
// or one kind. All but required, nothing and extra are better
// larger; owner to kind count among the found.
type tally struct {
	required, found int
	owner           int
	first, any      int // the feeling named first, or any of those named, is expected
	flags, kind     int
	nothing, clean  int // items where nobody feels anything; those where nothing was found
	extra           int // cues where no finding was expected
}

func (a *tally) add(b tally) {
	a.required += b.required
	a.found += b.found
	a.owner += b.owner
	a.first += b.first
	a.any += b.any
	a.flags += b.flags
	a.kind += b.kind
	a.nothing += b.nothing
	a.clean += b.clean
	a.extra += b.extra
}

func (a tally) row(name string) string {
	return fmt.Sprintf("%-12s %8d %5d %5d %5d %4d %5d %4d %7d %5d %5d\n",
		name, a.required, a.found, a.owner, a.first, a.any, a.flags, a.kind, a.nothing, a.clean, a.extra)
}

const columns = "             required found owner first  any flags kind nothing clean extra\n"

// miss is one thing that the engine read otherwise than a teacher.
type miss struct{ cause, line string }

// Causes of misses, in the order of the report.
var causes = []struct{ id, say string }{
	{"unfound", "not found"},
	{"owner", "found, but another's"},
	{"family", "found, but another feeling first"},
	{"flags", "found, but denied or pretended otherwise"},
	{"false", "found where nothing was expected"},
}

// score compares what the engine found in one item with what was expected.
// Cues that read the event itself are looked for where one is expected and
// counted nowhere else: that an event would make one feel something is true
// of much that no item lists.
func score(it reading, a *nlp.Analysis) (total tally, byKind map[string]tally, places [2]int, misses []miss) {
	byKind = map[string]tally{}
	say := func(cause, format string, args ...any) {
		misses = append(misses, miss{cause, it.id + ": " + fmt.Sprintf(format, args...)})
	}
	for _, e := range it.finds {
		if e.optional {
			continue
		}
		one := tally{required: 1}
		c := best(e, a.Cues)
		if c == nil {
			say("unfound", "%s", e.quote)
		} else {
			one.found = 1
			words := c.Span.Of(it.text)
			if ownedBy(e.owner, c.Character, a) {
				one.owner = 1
			} else {
				say("owner", "%q: %s, not %s", words, e.owner, nameOf(c.Character, a))
			}
			fits := func(w nlp.Weight) bool { return slices.Contains(e.families, w.Family) }
			if slices.ContainsFunc(c.Feelings, fits) {
				one.any = 1
			}
			if len(c.Feelings) > 0 && fits(c.Feelings[0]) {
				one.first = 1
			} else {
				say("family", "%q: %s, not %s", words, strings.Join(e.families, " "), feelingsOf(*c))
			}
			if c.Denied == e.denied && c.Pretended == e.pretended {
				one.flags = 1
			} else {
				say("flags", "%q: %s, not %s", words, flagsOf(e.denied, e.pretended), flagsOf(c.Denied, c.Pretended))
			}
			if slices.Contains(e.kinds, c.Kind) {
				one.kind = 1
			}
			if len(e.places) > 0 {
				places[1]++
				if slices.ContainsFunc(c.Places, func(p string) bool { return slices.Contains(e.places, p) }) {
					places[0]++
				}
			}
		}
		total.add(one)
		k := byKind[e.kinds[0]]
		k.add(one)
		byKind[e.kinds[0]] = k
	}
	for _, c := range a.Cues {
		if c.Kind == nlp.Situation || slices.ContainsFunc(it.finds, func(e expected) bool { return e.span.Overlaps(c.Span) }) {
			continue
		}
		total.extra++
		say("false", "%q: %s of %s", c.Span.Of(it.text), feelingsOf(c), nameOf(c.Character, a))
	}
	if it.nothing {
		total.nothing = 1
		if total.extra == 0 {
			total.clean = 1
		}
	}
	return total, byKind, places, misses
}

// best gives the cue that stands for an expected finding: of those that share
// a byte with it, one of an expected kind before others, then the one that
// shares most. Nil where none does. What an event would make one feel is found
// only by a cue that says so: what is done in it may be another's.
func best(e expected, cues []nlp.Cue) *nlp.Cue {
	var found *nlp.Cue
	most := 0
	for i := range cues {
		c := &cues[i]
		span := c.Span
		if c.Event != nil && c.Event.Overlaps(e.span) {
			span = *c.Event
		}
		if !span.Overlaps(e.span) || e.kinds[0] == nlp.Situation && c.Kind != nlp.Situation {
			continue
		}
		worth := min(span.End, e.span.End) - max(span.Start, e.span.Start)
		if slices.Contains(e.kinds, c.Kind) {
			worth += len(e.quote)
		}
		if worth > most {
			found, most = c, worth
		}
	}
	return found
}

// pronouns gives the pronouns by which somebody may go whom the text calls
// nothing else.
var pronouns = func() map[string][]string {
	by := map[string][]string{}
	for _, class := range []string{"he him his himself", "she her hers herself", "they them their theirs themselves", "i me my mine myself", "we us our ours ourselves"} {
		words := strings.Fields(class)
		for _, w := range words {
			by[w] = words
		}
	}
	return by
}()

// ownedBy tells whether the character is the one meant by owner: by name or
// by the head noun of a mention. One who is a pronoun and nothing more may be
// such a character or none; one whom the text does not tell must be none, or
// one without a name.
func ownedBy(owner string, character int, a *nlp.Analysis) bool {
	owner = strings.ToLower(owner)
	class := pronouns[owner]
	if character == nlp.None {
		return owner == "-" || class != nil && owner != "i" && owner != "we"
	}
	c := a.Characters[character]
	if owner == "i" && c.Narrator {
		return true
	}
	hit := false
	for _, m := range c.Mentions {
		head := a.Doc.Tokens[m.Head]
		switch {
		case class == nil && owner != "-":
			if head.Lower == owner || head.Lemma == owner || strings.EqualFold(c.Name, owner) {
				return true
			}
			if c.Plural && joins(a.Doc.Tokens[m.First:m.End], owner) {
				return true
			}
		case !m.Pronoun:
			return false // a pronoun of the text was taken for somebody else
		case owner == "-" || slices.Contains(class, head.Lower):
			hit = true
		}
	}
	return hit
}

// joins tells whether a mention is of several, owner among them: "the goose
// girl and her sister".
func joins(mention []nlp.Token, owner string) bool {
	is := func(word string) func(nlp.Token) bool {
		return func(t nlp.Token) bool { return t.Lower == word }
	}
	return slices.ContainsFunc(mention, is("and")) && slices.ContainsFunc(mention, is(owner))
}

func nameOf(character int, a *nlp.Analysis) string {
	if character == nlp.None {
		return "nobody"
	}
	return a.Characters[character].Name
}

func feelingsOf(c nlp.Cue) string {
	var out []string
	for _, w := range c.Feelings {
		out = append(out, w.Family)
	}
	return strings.Join(out, " ")
}

func flagsOf(denied, pretended bool) string {
	switch {
	case denied && pretended:
		return "denied and pretended"
	case denied:
		return "denied"
	case pretended:
		return "pretended"
	}
	return "felt"
}

// report is all figures of one run.
type report struct {
	names  []string
	by     map[string]*tally
	kinds  map[string]*tally
	places [2]int
	misses []miss
}

func (r *report) sum(which func(name string) bool) tally {
	var t tally
	for _, n := range r.names {
		if which(n) {
			t.add(*r.by[n])
		}
	}
	return t
}

var kinds = []string{nlp.Named, nlp.Body, nlp.FaceVoice, nlp.Action, nlp.Speech, nlp.Situation}

func runReadings(t *testing.T) *report {
	names, by := loadReadings(t)
	r := &report{names: names, by: map[string]*tally{}, kinds: map[string]*tally{}}
	for _, k := range kinds {
		r.kinds[k] = &tally{}
	}
	for _, name := range names {
		r.by[name] = &tally{}
		for _, it := range by[name] {
			total, byKind, places, misses := score(it, analyze(t, it.text))
			r.by[name].add(total)
			for k, one := range byKind {
				r.kinds[k].add(one)
			}
			r.places[0] += places[0]
			r.places[1] += places[1]
			r.misses = append(r.misses, misses...)
		}
	}
	return r
}

func (r *report) table() string {
	var b strings.Builder
	b.WriteString(columns)
	for _, n := range r.names {
		b.WriteString(r.by[n].row(n))
	}
	b.WriteString("\n" + columns)
	for _, k := range kinds {
		b.WriteString(r.kinds[k].row(k))
	}
	all := r.sum(func(string) bool { return true })
	b.WriteString("\n" + columns + all.row("all"))
	fmt.Fprintf(&b, "\na body place told where one is expected: %d of %d found\n", r.places[0], r.places[1])
	return b.String()
}

func (r *report) String() string {
	var b strings.Builder
	b.WriteString(`# How the engine reads the invented passages of this folder.
# source: written by the test in readings_test.go; not edited by hand
# licence: CC0
# required: findings that a teacher makes; found: those where the engine found a clue; of the found,
# owner: whose it is, first, any: the feeling named first, or any of those named, fits or is acceptable,
# flags: denied and pretended as expected, kind: as expected. nothing: passages where nobody feels anything, clean: those where
# the engine found nothing. extra: clues where none was expected. Event clues count only where one is expected.

`)
	b.WriteString(r.table())
	b.WriteString("\n")
	for _, f := range floors {
		b.WriteString(f.say(r))
	}
	for _, c := range causes {
		var lines []string
		for _, m := range r.misses {
			if m.cause == c.id {
				lines = append(lines, m.line)
			}
		}
		fmt.Fprintf(&b, "\n## %s: %d\n%s\n", c.say, len(lines), strings.Join(lines, "\n"))
	}
	return b.String()
}

// The engine reads the invented passages no worse than the report says, and
// never below its floors.
func TestReadings(t *testing.T) {
	r := runReadings(t)
	t.Log("\n" + r.table())
	if *update {
		require.NoError(t, os.WriteFile(goldenReadings, []byte(r.String()), 0o644))
	}
	for _, f := range floors {
		t.Log(strings.TrimSpace(f.say(r)))
		if n, d := f.of(r); float64(n) < f.floor*float64(d) {
			t.Errorf("%s: %d of %d is below the floor of %.2f", f.name, n, d, f.floor)
		}
	}
	golden, err := os.ReadFile(goldenReadings)
	require.NoError(t, err, howToUpdate)
	was := tableOf(golden)
	now := tableOf([]byte(r.String()))
	for name, counts := range now {
		old, ok := was[name]
		if !ok || old[0] != counts[0] || old[7] != counts[7] {
			t.Errorf("%s holds other passages than the report; %s", name, howToUpdate)
			continue
		}
		for i, column := range strings.Fields(columns) {
			worse := old[i] - counts[i]
			if column == "extra" {
				worse = -worse
			}
			if worse > margin {
				t.Errorf("%s: %s was %d and is %d; %s", name, column, old[i], counts[i], howToUpdate)
			}
		}
	}
}

// tableOf reads the counts back from a report: by category, by kind and in all.
func tableOf(report []byte) map[string][10]int {
	out := map[string][10]int{}
	for line := range bytes.Lines(report) {
		var name string
		var c [10]int
		n, _ := fmt.Sscan(string(line), &name, &c[0], &c[1], &c[2], &c[3], &c[4], &c[5], &c[6], &c[7], &c[8], &c[9])
		if n == 11 {
			out[name] = c
		}
	}
	return out
}
