package cues

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
	"feltpage/nlp/characters"
	"feltpage/nlp/clauses"
	"feltpage/nlp/quotes"
	"feltpage/nlp/segment"
)

// A want is a cue that a sentence must give: words, family, owner's name.
// An empty owner is not looked at.
type want struct{ words, family, who string }

// Sentences of our own with the findings that a careful reader would sign.
func TestFindOwners(t *testing.T) {
	lx, err := Load()
	require.NoError(t, err)
	for _, c := range []struct {
		text string
		want []want
	}{
		{"The wave frightened the boy.", []want{{"frightened", "fear", "the boy"}}},
		{"The boy was frightened by the captain.", []want{{"frightened", "fear", "the boy"}}},
		{"The captain's shout made the girl tremble.", []want{{"made the girl tremble", "fear", "the girl"}}},
		{"The letter filled the girl with joy.", []want{{"joy", "joy", "the girl"}}},
		{"Trembling, the boy opened the door.", []want{{"Trembling", "fear", "the boy"}}},
		{"The captain saw the girl, and his heart sank.", []want{{"his heart sank", "fear", "the captain"}}},
		{"The girl looked at the captain, and her heart leaped.", []want{{"her heart leaped", "joy", "the girl"}}},
		{"\"Woe is me!\" cried the miller.", []want{{"Woe is me", "sadness", "the miller"}, {"cried", "sadness", "the miller"}}},
		{"\"The boat is gone,\" sobbed the girl.", []want{{"sobbed", "sadness", "the girl"}}},
		{"Fear seized the boy.", []want{{"Fear", "fear", "the boy"}}},
		{"The girl's grief was great.", []want{{"grief", "sadness", "the girl"}}},
		{"The old man was tired and hungry.", []want{{"tired", "tiredness", "the old man"}, {"hungry", "hunger", "the old man"}}},
		{"The angry captain went home.", []want{{"angry", "anger", "the angry captain"}}},
		{"It pleased the queen.", []want{{"pleased", "joy", "the queen"}}},
		{"The boy wrung his hands.", []want{{"wrung his hands", "sadness", "the boy"}}},
		{"The captain said angrily that the boat was his.", []want{{"angrily", "anger", "the captain"}}},
	} {
		cs, cast, d := read(t, lx, c.text)
		for _, w := range c.want {
			ok := false
			for _, x := range cs {
				if x.Span.Of(d.Text) != w.words {
					continue
				}
				has := false
				for _, f := range x.Feelings {
					has = has || f.Family == w.family
				}
				ok = ok || has && x.Character >= 0 && same(cast[x.Character], w.who)
			}
			require.True(t, ok, "%q: no cue %v%s", c.text, w, tags(d, cs))
		}
	}
}

func same(c nlp.Character, name string) bool {
	head := func(s string) string { f := strings.Fields(strings.ToLower(s)); return f[len(f)-1] }
	for _, n := range append([]string{c.Name}, c.Aliases...) {
		if n != "" && head(n) == head(name) {
			return true
		}
	}
	return false
}

// Denial, litotes, what is only wished, asked or supposed, traits, metaphor
// and pretence.
func TestFindDenial(t *testing.T) {
	lx, err := Load()
	require.NoError(t, err)
	const none, felt, denied, shown = "none", "felt", "denied", "shown"
	for _, c := range []struct{ text, family, state string }{
		{"The boy was not afraid.", "fear", denied},
		{"The boy felt no fear.", "fear", denied},
		{"The boy went in without fear.", "fear", denied},
		{"The boy was no longer afraid.", "fear", denied},
		{"The boy was never sad.", "sadness", denied},
		{"The boy was neither sad nor angry.", "anger", denied},
		{"Instead of being sad, the boy sang.", "sadness", denied},
		{"The boy was far from happy.", "joy", denied},
		{"The boy was not a little surprised.", "surprise", felt},
		{"Never had the boy been so happy.", "joy", felt},
		{"The boy could not help laughing.", "joy", felt},
		{"The boy could not hide his joy.", "joy", felt},
		{"The boy could not but weep.", "sadness", felt},
		{"The boy would be glad to go.", "joy", none},
		{"If the boy is sad, he must say so.", "sadness", none},
		{"Should the boy be hungry, there is bread.", "hunger", none},
		{"Had the boy been angry, he would have said so.", "anger", none},
		{"Suppose the boy were lonely.", "loneliness", none},
		{"Had the bread been warm? The boy was sad.", "sadness", felt},
		{"She hid the letter lest the boy be sad.", "sadness", none},
		{"\"Are you afraid?\" asked the girl.", "fear", none},
		{"\"Do not be afraid,\" said the girl.", "fear", none},
		{"She asked whether the boy was angry.", "anger", none},
		{"It was a sad song.", "sadness", none},
		{"It was the merry month of May.", "joy", none},
		{"The angry sea beat on the rocks.", "anger", none},
		{"The wind sighed in the reeds.", "sadness", none},
		{"The boy pretended to weep.", "sadness", shown},
		{"The boy forced a smile.", "joy", shown},
		{"The boy opened the oven without so much as a sigh.", "sadness", denied},
		{"Hardly anything frightened the boy.", "fear", denied},
		{"The boy's sorrow was gone.", "sadness", denied},
		{"The boy's fear was over.", "fear", denied},
		{"The boy put on a sad face.", "sadness", shown},
		{"The boy wept false tears.", "sadness", shown},
		{"The boy only seemed angry.", "anger", shown},
		{"The boy put on shoes and wept.", "sadness", felt},
		{"The boy was glad.", "joy", felt},
	} {
		cs, _, d := read(t, lx, c.text)
		state := stateOf(cs, c.family)
		require.Equal(t, c.state, state, "%q%s", c.text, tags(d, cs))
	}
}

// A longer list in testdata: the share is counted, what fails is logged.
func TestDenialSentences(t *testing.T) {
	lx, err := Load()
	require.NoError(t, err)
	all, right := 0, 0
	for _, row := range table(t, "testdata/denial.txt") {
		f := strings.SplitN(row[0], " | ", 3)
		require.Len(t, f, 3, row[0])
		cs, _, d := read(t, lx, f[2])
		state := stateOf(cs, f[1])
		all++
		if state == f[0] {
			right++
		} else {
			t.Logf("%s, not %s (%s): %s%s", state, f[0], f[1], f[2], tags(d, cs))
		}
	}
	t.Logf("%d sentences, %d right", all, right)
	require.Greater(t, float64(right), 0.9*float64(all))
}

// stateOf says what the cues tell of a family.
func stateOf(cs []nlp.Cue, family string) string {
	state := "none"
	for _, x := range cs {
		for _, f := range x.Feelings {
			if f.Family != family {
				continue
			}
			switch {
			case x.Denied:
				state = "denied"
			case x.Pretended:
				state = "shown"
			default:
				return "felt"
			}
		}
	}
	return state
}

func TestFindStrength(t *testing.T) {
	lx, err := Load()
	require.NoError(t, err)
	for text, strength := range map[string]string{
		"The boy was a little afraid.":        nlp.Slight,
		"The boy was afraid.":                 nlp.Plain,
		"The boy was exceedingly afraid.":     nlp.Strong,
		"The boy was angry beyond measure.":   nlp.Strong,
		"The boy was terribly hungry.":        nlp.Strong,
		"The boy was somewhat uneasy.":        nlp.Slight,
		"The boy was not a little surprised.": nlp.Strong,
	} {
		cs, _, d := read(t, lx, text)
		require.NotEmpty(t, cs, text)
		require.Equal(t, strength, cs[0].Strength, "%q%s", text, tags(d, cs))
	}
}

func TestOwnExpressions(t *testing.T) {
	lx, err := Load()
	require.NoError(t, err)
	own := lx.With([]Expression{
		{Phrase: "his tummy does flips", Family: "worry", Place: "belly"},
		{Phrase: "like fizzy pop", Family: "fizz"},
		{Phrase: "", Family: "joy"}, {Phrase: "...", Family: "joy"}, {Phrase: "word"},
	})
	cs, cast, _ := read(t, own, "The girl waited, and her tummy did flips.")
	ok := false
	for _, c := range cs {
		if c.Reason.Code == "cue.own-words" {
			ok = true
			require.Equal(t, "worry", c.Feelings[0].Family)
			require.Equal(t, []string{"belly"}, c.Places)
			require.Equal(t, nlp.Body, c.Kind)
			require.True(t, same(cast[c.Character], "the girl"))
		}
	}
	require.True(t, ok)
	cs, _, _ = read(t, lx, "The girl waited, and her tummy did flips.")
	for _, c := range cs {
		require.NotEqual(t, "cue.own-words", c.Reason.Code, "the first lexicon must stay as it was")
	}
}

// Same text, same cues, whatever was read before; spans in bounds and in order.
func FuzzFind(f *testing.F) {
	lx, err := Load()
	if err != nil {
		f.Fatal(err)
	}
	tg, err := tagger()
	if err != nil {
		f.Fatal(err)
	}
	f.Add("\"Woe is me!\" cried the miller, and his knees shook. He was not afraid.")
	f.Add("!!! \xff\xfe “‘ not never no ... himself POSS")
	f.Add(strings.Repeat("the boy's ", 40) + "heart sank and sank!")
	f.Fuzz(func(t *testing.T, s string) {
		d := segment.Split(s)
		tg.Tag(d)
		clauses.Parse(d)
		cast, q := characters.Resolve(d, quotes.Find(d))
		a := lx.Find(d, cast, q)
		require.Equal(t, a, lx.Find(d, cast, q))
		last := 0
		for _, c := range a {
			require.True(t, 0 <= c.Span.Start && c.Span.Start < c.Span.End && c.Span.End <= len(s))
			require.GreaterOrEqual(t, c.Span.Start, last)
			last = c.Span.Start
			require.True(t, c.Character >= nlp.None && c.Character < len(cast))
		}
	})
}

func BenchmarkFind(b *testing.B) {
	lx, err := Load()
	require.NoError(b, err)
	tg, err := tagger()
	require.NoError(b, err)
	text := strings.Repeat("The miller was very angry, and he stamped his foot. \"Woe is me!\" cried his wife, and wrung her hands. "+
		"But the boy went down to the shore and looked at the grey sea for a long time, for he was tired of the mill. ", 200)
	d := segment.Split(text)
	tg.Tag(d)
	clauses.Parse(d)
	cast, q := characters.Resolve(d, quotes.Find(d))
	b.SetBytes(int64(len(text)))
	b.ResetTimer()
	for b.Loop() {
		lx.Find(d, cast, q)
	}
	b.ReportMetric(float64(len(d.Tokens))*float64(b.N)/b.Elapsed().Seconds(), "tokens/s")
}

// What is heard is somebody's, but not the hearer's; a feeling that is gone is
// denied.
func TestFindHeardAndGone(t *testing.T) {
	lx, err := Load()
	require.NoError(t, err)
	cs, _, d := read(t, lx, "The girl heard a deep sigh.")
	require.Len(t, cs, 1, tags(d, cs))
	require.Equal(t, nlp.None, cs[0].Character)
	cs, cast, d := read(t, lx, "The captain found the girl in great fear.")
	require.Len(t, cs, 1, tags(d, cs))
	require.True(t, same(cast[cs[0].Character], "the girl"))
	cs, _, d = read(t, lx, "The girl's fear vanished.")
	require.Len(t, cs, 1, tags(d, cs))
	require.True(t, cs[0].Denied)
}

// A sentence without an end: the tokens a second must not fall with its length.
func BenchmarkEndlessSentence(b *testing.B) {
	lx, err := Load()
	require.NoError(b, err)
	tg, err := tagger()
	require.NoError(b, err)
	for _, n := range []int{1000, 10000, 100000} {
		d := segment.Split("\"" + strings.Repeat("the boy was afraid and the girl wept because ", n/9))
		tg.Tag(d)
		clauses.Parse(d)
		cast, q := characters.Resolve(d, quotes.Find(d))
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				lx.Find(d, cast, q)
			}
			b.ReportMetric(float64(len(d.Tokens))*float64(b.N)/b.Elapsed().Seconds(), "tokens/s")
		})
	}
}
