package characters_test

import (
	"fmt"
	"strings"
	"testing"

	"feltpage/nlp"
	"feltpage/nlp/characters"
	"feltpage/nlp/clauses"
	"feltpage/nlp/quotes"
	"feltpage/nlp/segment"
	"feltpage/nlp/tag"
)

// marked is a text with its right reading: {1 Moss} is a mention of character
// 1, <1,2 "Come."> a quote that 1 speaks to 2 (the listener may be left out).
// Mentions with one number must be of one character, with different numbers
// of different ones; - is nobody.
type marked struct {
	text     string
	mentions []span
	quotes   []span
}

type span struct {
	nlp.Span
	id, listener string
}

func parse(s string) marked {
	var m marked
	var b strings.Builder
	type open struct {
		at    int
		id    string
		quote bool
	}
	var stack []open
	for i := 0; i < len(s); i++ {
		switch c := s[i]; c {
		case '{', '<':
			j := i + 1 + strings.IndexByte(s[i+1:], ' ')
			stack = append(stack, open{b.Len(), s[i+1 : j], c == '<'})
			i = j
		case '}', '>':
			o := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			sp := span{Span: nlp.Span{Start: o.at, End: b.Len()}, id: o.id}
			if o.quote {
				sp.id, sp.listener, _ = strings.Cut(o.id, ",")
				m.quotes = append(m.quotes, sp)
			} else {
				m.mentions = append(m.mentions, sp)
			}
		default:
			b.WriteByte(c)
		}
	}
	m.text = b.String()
	return m
}

var tagger = func() *tag.Tagger {
	t, err := tag.Load()
	if err != nil {
		panic(err)
	}
	return t
}()

func analyse(text string) (*nlp.Document, []nlp.Character, []nlp.Quote) {
	d := segment.Split(text)
	tagger.Tag(d)
	clauses.Parse(d)
	cs, q := characters.Resolve(d, quotes.Find(d))
	return d, cs, q
}

// check reads the marked text and tells what differs.
func check(s string) error {
	m := parse(s)
	_, cs, qs := analyse(m.text)
	at := map[nlp.Span]int{}
	for _, c := range cs {
		for _, x := range c.Mentions {
			at[x.Span] = c.ID
		}
	}
	who := map[string]int{"-": nlp.None}
	name := func(id int) string {
		if id == nlp.None {
			return "nobody"
		}
		return fmt.Sprintf("%d %q", id, cs[id].Name)
	}
	same := func(id string, got int, what string) error {
		want, ok := who[id]
		if !ok {
			for other, c := range who {
				if c == got {
					return fmt.Errorf("%s is %s, which is already %s", what, name(got), other)
				}
			}
			who[id] = got
			return nil
		}
		if want != got {
			return fmt.Errorf("%s is %s, want %s = %s", what, name(got), id, name(want))
		}
		return nil
	}
	for _, x := range m.mentions {
		got, ok := at[x.Span]
		if !ok {
			got = nlp.None
			if x.id != "-" {
				return fmt.Errorf("no mention %q at %v; have %s", x.Of(m.text), x.Span, list(cs, m.text))
			}
		}
		if err := same(x.id, got, fmt.Sprintf("%q at %d", x.Of(m.text), x.Start)); err != nil {
			return err
		}
	}
	for _, x := range m.quotes {
		found := false
		for _, q := range qs {
			if q.Span != x.Span {
				continue
			}
			found = true
			if err := same(x.id, q.Speaker, "speaker of "+x.Of(m.text)); err != nil {
				return err
			}
			if x.listener != "" {
				if err := same(x.listener, q.Listener, "listener of "+x.Of(m.text)); err != nil {
					return err
				}
			}
		}
		if !found {
			return fmt.Errorf("no quote %s", x.Of(m.text))
		}
	}
	return nil
}

func list(cs []nlp.Character, text string) string {
	var b strings.Builder
	for _, c := range cs {
		fmt.Fprintf(&b, "[%d %s:", c.ID, c.Name)
		for _, m := range c.Mentions {
			fmt.Fprintf(&b, " %q", m.Span.Of(text))
		}
		b.WriteString("] ")
	}
	return b.String()
}

// All sentences are invented for this test.
var readings = []struct{ name, text string }{
	{"he", `{1 Moss} took {1 his} cap and {1 he} ran to the harbour.`},
	{"she and he", `{1 Juniper} saw {2 Tom}. {1 She} waved, and {2 he} waved back.`},
	{"title", `{1 Mistress Alder} baked bread. {1 She} was tired. At night {1 Mistress Alder} slept.`},
	{"old and plain name", `{1 Mistress Alder} kept a bakery. Everybody liked {1 old Alder}, for {1 she} was kind.`},
	{"first and full name", `{1 Juniper Reed} lived by the sea. {1 Juniper} loved gulls.`},
	{"two of one family", `{1 Mr. Reed} met {2 Mrs. Reed} at the door. {1 He} kissed {2 her}.`},
	{"the noun again", `{1 A baker} lived by the sea. {1 The baker} rose early, and {1 he} lit the oven.`},
	{"two nouns", `{1 A baker} had {2 a cat}. {1 The baker} fed {2 the cat}.`},
	{"apposition", `{1 Nilo}, {1 the fisher's boy}, mended nets. {1 He} was cold.`},
	{"apposition of a noun", `{1 The baker}, {1 a tall old woman}, opened the door. {1 She} was smiling.`},
	{"name after noun", `There was once {1 a fisherman} named {1 Nilo}. {1 Nilo} had a boat.`},
	{"predicate", `{1 Juniper} was {1 the youngest cousin}. {1 She} sang.`},
	{"king and name", `{1 King Harald} rode home. {1 The king} was weary, and {1 his} horse was lame.`},
	{"sisters told apart", `{1 The elder sister} swept. {2 The younger sister} sang. {1 The elder} was cross.`},
	{"brothers in a row", `There were {9 three brothers}. {1 The first brother} went north. {2 The second brother} went south. {1 The first brother} found a stone.`},
	{"the youngest", `An old woman had {9 three daughters}. {1 The youngest} was called {1 Juniper}. {1 She} baked.`},
	{"black and white", `{1 The black gull} flew off. {2 The white gull} stayed. {1 The black gull} screamed.`},
	{"another", `{1 A gull} sat on the roof. {2 Another gull} came.`},
	{"animal", `{1 The goose} looked at the bread. {1 It} was hungry. {1 The goose} ate.`},
	{"animal he", `{1 The old fox} crept in. {1 He} licked {1 his} lips.`},
	{"giant", `There lived {1 a giant} on the hill. {1 The giant} was lonely, and {1 he} wept.`},
	{"talking pot", `<1 "Fill me,"> said {1 the pot}. The girl laughed. {1 The pot} was angry.`},
	{"mute pot", `The girl filled {- the pot} and set {- it} down.`},
	{"soldiers", `{1 The soldiers} came at noon. {1 They} were tired and sat in {1 their} tents.`},
	{"two sisters", `{1 The two sisters} walked to the shore. {1 They} held hands.`},
	{"man and wife", `{3 {1 The man} and {2 {1 his} wife}} were poor. {3 They} had no bread.`},
	{"two together", `{1 Juniper} met {2 Moss} at the gate. {3 They} walked to the sea.`},
	{"crowd", `{1 The crowd} cheered. {1 They} threw their caps in the air.`},
	{"his mother", `{1 Moss} ran in. {2 {1 His} mother} was asleep. {1 He} called {2 her}.`},
	{"his mother again", `{1 Moss} ran in. {2 {1 His} mother} slept. Later {1 Moss} woke {2 {1 his} mother}.`},
	{"two mothers", `{2 {1 Moss}'s mother} baked. {4 {3 Juniper}'s mother} sang. {2 {1 Moss}'s mother} was tired.`},
	{"mother of", `{2 The mother} of {1 the boy} sighed. {1 The boy} saw {2 his mother}.`},
	{"father of his daughter", `{1 A king} had {2 a daughter}. {2 She} loved {1 {2 her} father}.`},
	{"wife and husband", `{1 The miller} called {2 {1 his} wife}. {2 She} scolded {1 {2 her} husband}.`},
	{"king's daughter", `{2 {1 The king}'s daughter} wept. {1 The king} heard {2 her}.`},
	{"reflexive", `{1 Moss} saw Tom. {2 Juniper} looked at {2 herself}.`},
	{"not reflexive", `{1 The baker} hid {2 the fox}. {2 The fox} thanked {1 him}.`},
	{"I who tell", `{1 I} was born by the sea. {1 My} grandmother baked bread for {1 me}.`},
	{"said after", `<1 "The bread is warm,"> said {1 Moss}.`},
	{"said before", `{1 Juniper} said, <1 "The gulls are back.">`},
	{"asked whom", `<1,2 "Is it warm?"> {1 Moss} asked {2 Juniper}.`},
	{"said to whom", `{1 The baker} said to {2 the fox}, <1,2 "Go away!"> {2 The fox} went.`},
	{"she said", `{1 Juniper} sat down. <1 "I am tired,"> {1 she} said.`},
	{"he said, two there", `{1 Moss} looked at {2 Juniper}. <1,2 "Come,"> {1 he} said. <2,1 "No,"> {2 she} said.`},
	{"tag between", `<1 "Come,"> said {1 Moss}, <1 "the tide is out.">`},
	{"I and you", `{1 Moss} said to {2 Juniper}, <1,2 "{1 I} like {2 your} bread.">`},
	{"my mother", `<1 "{2 {1 My} mother} is ill,"> said {1 Juniper}.`},
	{"called by name", `<1,2 "{2 Moss}, come in!"> called {1 the baker}.`},
	{"called by kin", `<1,2 "{2 Grandmother}, {1 I} am cold,"> said {1 Moss}. {2 The grandmother} lit the fire.`},
	{"turns", "{1 Moss} met {2 Juniper}.\n\n<1,2 \"Where were {2 you}?\"> asked {1 Moss}.\n\n<2,1 \"By the sea.\">\n\n<1,2 \"Was it cold?\">\n\n<2,1 \"Very cold.\">"},
	{"turns of many", "<1,2 \"Is it ready?\"> {1 Moss} asked {2 the baker}.\n\n<2,1 \"Not yet,\"> said {2 the baker}.\n\n<1,2 \"And now?\">"},
	{"reopened", "{1 The baker} said, <1 \"The sea rose.>\n\n<1 \"Then it fell.\">"},
	{"action then speech", "{1 Moss} ran out. {2 Juniper} came in.\n\n{2 Juniper} sat down. <2 \"Here is bread.\">"},
	{"same paragraph", `<1 "Stop!"> cried {1 the baker}. {1 She} was red. <1 "That is for tomorrow.">`},
	{"not oneself", `{1 Tom} said, <1 "{2 Moss} is late, and {2 he} is wet.">`},
	{"animals talk", `<1,2 "Good day, {2 friend},"> said {1 the hare} to {2 the tortoise}. <2 "Good day,"> said {2 the tortoise}.`},
	{"women told apart", `{1 The old woman} gave {2 the girl} a loaf. {2 The girl} thanked {1 the old woman}.`},
	{"neither place nor month", `{1 Moss} went to {- London} in {- March}.`},
	{"wind that speaks", `<1 "I will blow,"> said {1 the wind}. {1 The wind} blew.`},
	{"passive", `{1 The boy} was chased by {2 the dog}. {1 He} climbed a tree.`},
	{"same as before", `{1 Juniper} baked a cake for {2 Moss}. {1 She} gave it to {2 him}.`},
	{"possessive and subject", `{1 The king} loved {2 {1 his} queen}. {1 He} gave {2 her} a ring.`},
	{"no person in rain", `{- It} rained. {1 Moss} felt wet.`},
	{"unclosed speech", "{1 Moss} said, <1 \"The sea rose.>\n\n{1 Moss} ran."},
	{"one noun of two kings", `{1 The king} of the gulls met {2 the king} of the crows. {1 The king} of the gulls bowed.`},
	{"the lad wider", `{1 Nilo} carried the nets. {1 The boy} was strong.`},
	{"the little ones", `{1 The young gulls} sat on the roof. <1 "{1 We} are afraid,"> said {1 the little ones}.`},
	{"young ones", `{1 The gull} fed {2 {1 her} young ones}. {2 They} screamed. <2 "More!"> cried {2 the little ones}.`},
	{"giant who has spoken", `<1 "Who is there?"> cried {1 the giant}. {1 He} ran out. {2 The shepherd} laughed.`},
	{"compound", `{1 The young man} laughed. {2 The Snow Man} stared at {1 the young man}. {2 The Snow Man} was cold.`},
	{"called, so not who speaks", `{1 Tom} sat with {2 Anna}. {1 Tom} began to whistle. <2,1 "Don't, {1 Tom}.">`},
	{"said one", `{3 The gulls} sat down. <1 "Bread!"> cried {1 one}.`},
	{"went on", `<1 "It is late,"> said {1 the baker}. <2 "It is dark,"> went on {2 Moss}.`},
	{"name at the end of speech", `<1,2 "Where are {2 you}, {2 Moss}?"> cried {1 the baker}. <2 "Here,"> said {2 Moss}.`},
	{"king's daughter, princess", `{1 A king} had {- a castle}. {2 The princess} was proud. {2 {1 The king}'s daughter} laughed.`},
	{"no child", `{1 The baker} had {- no child}. {1 She} was lonely.`},
	{"brought in by had", `There was {1 a miller} who had {2 a son}. {2 The son} was idle, and {1 {2 his} father} scolded {2 him}.`},
	{"she who is told", `{1 The stranger} waited. {2 Anna} came. {2 She} sat down.`},
	{"after speech", `{1 Moss} sat down. <1 "{2 Tom} is late,"> {1 he} said. {1 He} sighed.`},
	{"somebody never named", `{1 He} woke early. {1 He} was cold, and {1 his} bread was gone.`},
	{"the other one", `{1 Moss} met {2 Tom}. <1 "Come,"> said {1 Moss}. <2 "No,"> said {2 the other}.`},
	{"she who wakes, named late", `When {1 she} woke, {1 Juniper} ran to the window.`},
	{"titles of beings", `{1 The fairy} came to {2 the girl}. {1 The fairy} gave {2 her} a shell.`},
	{"of whom the sea is", `<1 "Who are {2 you}?"> asked {1 the sea}. <2 "{2 I} am Moss,"> said {2 the boy}.`},
	{"children and she", `{3 The children} ran to {1 {3 their} grandmother}. {1 She} kissed {3 them}.`},
	{"called brother in law", `{1 Anna} knocked. {2 {1 Her} cousin Moss} opened. {2 Moss} smiled at {1 her}.`},
}

func TestReadings(t *testing.T) {
	for _, c := range readings {
		t.Run(c.name, func(t *testing.T) {
			if err := check(c.text); err != nil {
				t.Error(err)
			}
		})
	}
}

// A capital at the start of a sentence makes no name of an everyday word, and
// nobody in particular is no antecedent of a later he or she.
func TestPlainWordsAreNoNames(t *testing.T) {
	for text, want := range map[string][]string{
		"Heat rose from the bakery floor. It stung her feet, and Juniper stepped back. She felt the heat in her face.": {"Juniper"},
		"Water ran down the wall. Moss wiped it up. He liked the water.":                                               {"Moss"},
		"Snow had fallen on the harbour. Juniper swept the step. She was cold.":                                        {"Juniper"},
		"Nobody had lit the oven. Moss blew on the ashes. He coughed.":                                                 {"Moss"},
	} {
		d := segment.Split(text)
		tagger.Tag(d)
		clauses.Parse(d)
		cast, _ := characters.Resolve(d, quotes.Find(d))
		var names []string
		for _, c := range cast {
			for _, m := range c.Mentions {
				if m.Pronoun {
					names = append(names, c.Name)
					break
				}
			}
		}
		if fmt.Sprint(names) != fmt.Sprint(want) {
			t.Errorf("%q: he or she means %v, want %v", text, names, want)
		}
	}
}

// A name that only opens its sentence is somebody all the same where it does
// or feels what somebody does or feels.
func TestNamesThatOpenTheirSentence(t *testing.T) {
	for _, text := range []string{"Moss slammed the gate.", "Moss was jealous of the baby.", "Juniper was never lonely at the bakery."} {
		d := segment.Split(text)
		tagger.Tag(d)
		clauses.Parse(d)
		cast, _ := characters.Resolve(d, quotes.Find(d))
		first, _, _ := strings.Cut(text, " ")
		found := false
		for _, c := range cast {
			found = found || c.Name == first
		}
		if !found {
			t.Errorf("%q: %s is nobody in %v", text, first, cast)
		}
	}
}
