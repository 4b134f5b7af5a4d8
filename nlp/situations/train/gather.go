package main

import (
	"encoding/json"
	"fmt"
	"hash/fnv"
	"path/filepath"
	"sort"
	"strings"

	"feltpage/nlp"
	"feltpage/nlp/situations"
)

// Sources of examples.
const (
	everyday = iota // Event2Mind
	invented        // our own sentences
	single          // our own words
	asked           // a story's sentences near what a question asks about
	tails           // what the question itself says happened
	told            // a story's sentences near words that show the feeling
	quiet           // a story's sentences with no such words near
	sources
)

var sourceNames = [sources]string{"everyday", "invented", "single", "asked", "tails", "told", "quiet"}

// term is a word in a slot with how much it counts.
type term struct {
	slot   situations.Slot
	word   int32
	weight float32
}

// example is one character's part in one sentence, with what it was like.
type example struct {
	terms  []term
	want   []float32 // share of each class
	weight float64
	source int
	fold   int // of its story, or -1: always learned from
}

// gatherer turns the data into examples over numbered words.
type gatherer struct {
	*engine
	labels   *labeller
	stories  []*story
	asked    []question
	number   map[string]int32
	words    []string
	seen     []int
	examples []example
	unknown  int // answers that say no known feeling
}

func (g *gatherer) count(lemma string) int32 {
	n, ok := g.number[lemma]
	if !ok {
		n = int32(len(g.words))
		g.number[lemma] = n
		g.words = append(g.words, lemma)
		g.seen = append(g.seen, 0)
	}
	g.seen[n]++
	return n
}

func (g *gatherer) add(evidence []situations.Evidence, want []float32, weight float64, source, fold int) {
	if want == nil || weight <= 0 || len(evidence) == 0 {
		return
	}
	g.examples = append(g.examples, example{terms(evidence), want, weight, source, fold})
}

func terms(evidence []situations.Evidence) []term {
	out := make([]term, 0, len(evidence))
	for _, e := range evidence {
		out = append(out, term{e.Slot, e.Word, e.Weight})
	}
	sort.Slice(out, func(a, b int) bool {
		return out[a].slot < out[b].slot || out[a].slot == out[b].slot && out[a].word < out[b].word
	})
	return out
}

// want averages the labels of the answers; nil where none says a feeling.
func (g *gatherer) want(answers []string) []float32 {
	var sum []float32
	n := float32(0)
	for _, a := range answers {
		s := g.labels.label(a)
		if s == nil {
			g.unknown++
			continue
		}
		if sum == nil {
			sum = make([]float32, len(s))
		}
		for i, x := range s {
			sum[i] += float32(x)
		}
		n++
	}
	for i := range sum {
		sum[i] /= n
	}
	return sum
}

var blanks = strings.NewReplacer("PersonX 's", "his", "PersonX's", "his", "PersonX", "he",
	"PersonY 's", "Ann's", "PersonY's", "Ann's", "PersonY", "Ann", "PersonZ", "Joe", " '", "'", "___", "something")

// everydayEvents reads Event2Mind: the actor is PersonX, the other PersonY.
func (g *gatherer) everydayEvents(name string) error {
	return each(name, func(b []byte) error {
		var row struct {
			Event  string
			Actor  []string
			Others []string
		}
		if err := json.Unmarshal(b, &row); err != nil {
			return err
		}
		d := g.parse(blanks.Replace(row.Event) + ".")
		cast := append(pronounCast(d, ""), pronounCastOf(d, "ann", 1))
		r := situations.Read(d, cast, nil, nil, g.count)
		for who, answers := range [][]string{row.Actor, row.Others} {
			if len(answers) > 0 && len(cast[who].Mentions) > 0 && len(d.Sentences) > 0 {
				g.add(r.Evidence(0, who), g.want(answers), 1, everyday, -1)
			}
		}
		return nil
	})
}

// pronounCastOf makes a character of the tokens that are the word.
func pronounCastOf(d *nlp.Document, word string, id int) nlp.Character {
	c := nlp.Character{ID: id, Name: word}
	for i, t := range d.Tokens {
		if t.Lower == word {
			c.Mentions = append(c.Mentions, nlp.Mention{Span: t.Span, First: i, End: i + 1, Head: i})
		}
	}
	return c
}

// questions reads the stories near what the questions ask about, and the
// questions' own words.
func (g *gatherer) questions() {
	byName := map[string]*story{}
	for _, s := range g.stories {
		byName[s.name] = s
	}
	readings := map[string]*situations.Reading{}
	for _, q := range g.asked {
		s := byName[q.Story]
		if s == nil {
			continue
		}
		want := g.want(append(append([]string{}, q.Answers...), q.Second...))
		if want == nil {
			continue
		}
		if tail := q.tail(); tail != "" {
			d := g.parse(tail + ".")
			r := situations.Read(d, pronounCast(d, q.who()), nil, nil, g.count)
			if len(d.Sentences) > 0 {
				g.add(r.Evidence(0, 0), want, 1, tails, s.fold)
			}
		}
		r := readings[q.Story]
		if r == nil {
			r = situations.Read(s.doc, s.cast, s.quotes, s.cues, g.count)
			readings[q.Story] = r
		}
		who, near := s.asked(q.who()), s.near(q)
		sum := 0.0
		for i, w := range near {
			for _, c := range r.People(i) {
				if who[c] {
					sum += w * w
				}
			}
		}
		for i := range s.doc.Sentences {
			w := near[i]
			if w == 0 {
				continue
			}
			for _, c := range r.People(i) {
				if who[c] {
					g.add(r.Evidence(i, c), want, w*w/sum, asked, s.fold)
				}
			}
		}
	}
}

// How sure a kind of cue is of its feeling, and how much a sentence so many
// before it (or one after) has to do with it.
var (
	sureness = map[string]float64{nlp.Named: 1, nlp.Body: 0.6, nlp.FaceVoice: 0.6, nlp.Speech: 0.4, nlp.Action: 0.4}
	before   = []float64{1, 0.7, 0.35}
	after    = 0.25
)

// shownIn reads a story near the words that show a feeling: what happened
// there, apart from those words, is what it was felt at. Sentences far from
// any such word are quiet.
func (g *gatherer) shownIn(s *story) {
	r := situations.Read(s.doc, s.cast, s.quotes, s.cues, g.count)
	type place struct{ sentence, who int }
	stirred := map[place]bool{}
	for _, c := range s.cues {
		if c.Character == nlp.None {
			continue
		}
		at := sentenceOf(s.doc, c.Span.Start)
		for i := at - 3; i <= at+2; i++ {
			stirred[place{i, c.Character}] = true
		}
		if c.Denied || c.Pretended {
			continue
		}
		want := make([]float32, len(situations.Classes))
		sum := float32(0)
		for _, w := range c.Feelings {
			if k, ok := g.labels.class[w.Family]; ok {
				want[k] += float32(w.Weight)
				sum += float32(w.Weight)
			}
		}
		if sum == 0 {
			continue
		}
		for i := range want {
			want[i] /= sum
		}
		try := func(i int, w float64) {
			if i < 0 || i >= len(s.doc.Sentences) {
				return
			}
			for _, p := range r.People(i) {
				if p == c.Character {
					g.add(r.Evidence(i, p), want, w*sureness[c.Kind], told, s.fold)
				}
			}
		}
		for k, w := range before {
			try(at-k, w)
		}
		try(at+1, after)
	}
	for i := range s.doc.Sentences {
		for _, p := range r.People(i) {
			if !stirred[place{i, p}] && keepQuiet(s.name, i, p) {
				want := make([]float32, len(situations.Classes))
				want[len(want)-1] = 1
				g.add(r.Evidence(i, p), want, 1, quiet, s.fold)
			}
		}
	}
}

// keepQuiet takes every third quiet sentence, by a hash that does not depend
// on the order of reading.
func keepQuiet(name string, sentence, who int) bool {
	h := fnv.New32a()
	h.Write([]byte(name))
	h.Write([]byte{byte(sentence), byte(sentence >> 8), byte(who)})
	return h.Sum32()%3 == 0
}

func sentenceOf(d *nlp.Document, at int) int {
	i := sort.Search(len(d.Sentences), func(i int) bool { return d.Sentences[i].Span.End > at })
	return min(i, len(d.Sentences)-1)
}

// folds deals the stories that are asked about out in order of name, and then
// the rest.
func folds(stories []*story, asked []question, k int) {
	has := map[string]bool{}
	for _, q := range asked {
		has[q.Story] = true
	}
	n := 0
	for _, first := range []bool{true, false} {
		for _, s := range stories {
			if has[s.name] == first {
				s.fold = n % k
				n++
			}
		}
	}
}

// gather reads all data.
func gather(data string, k int, labels *labeller) (*gatherer, error) {
	e, err := newEngine()
	if err != nil {
		return nil, err
	}
	g := &gatherer{engine: e, labels: labels, number: map[string]int32{}}
	if g.stories, err = readStories(e, filepath.Join(data, "fairytale-dev", "stories")); err != nil {
		return nil, err
	}
	if g.asked, err = readQuestions(filepath.Join(data, "fairytale-dev", "feeling-questions.jsonl")); err != nil {
		return nil, err
	}
	folds(g.stories, g.asked, k)
	for _, f := range []string{"train.jsonl", "dev.jsonl"} {
		if err := g.everydayEvents(filepath.Join(data, "event-feelings", f)); err != nil {
			return nil, err
		}
	}
	if err := g.singleWords(); err != nil {
		return nil, err
	}
	if err := g.ownEvents(); err != nil {
		return nil, err
	}
	g.questions()
	for _, s := range g.stories {
		g.shownIn(s)
	}
	g.prune()
	return g, nil
}

// prune leaves out words met only once or twice and puts the rest in byte
// order.
func (g *gatherer) prune() {
	var kept []string
	for w, n := range g.number {
		if g.seen[n] >= 3 {
			kept = append(kept, w)
		}
	}
	sort.Strings(kept)
	to := make([]int32, len(g.words))
	for i := range to {
		to[i] = -1
	}
	for i, w := range kept {
		to[g.number[w]] = int32(i)
	}
	for i := range g.examples {
		ts := g.examples[i].terms[:0]
		for _, t := range g.examples[i].terms {
			if t.word = to[t.word]; t.word >= 0 {
				ts = append(ts, t)
			}
		}
		g.examples[i].terms = ts
	}
	g.words = kept
	g.number = map[string]int32{}
	for i, w := range kept {
		g.number[w] = int32(i)
	}
}

// known gives the number of a word after pruning.
func (g *gatherer) known(lemma string) int32 {
	if n, ok := g.number[lemma]; ok {
		return n
	}
	return -1
}

// String says how many examples there are of each source.
func (g *gatherer) String() string {
	var n [sources]int
	for _, e := range g.examples {
		n[e.source]++
	}
	var b strings.Builder
	for i, name := range sourceNames {
		fmt.Fprintf(&b, "%s %d, ", name, n[i])
	}
	fmt.Fprintf(&b, "%d words; %d answers without a known feeling left out", len(g.words), g.unknown)
	return b.String()
}
