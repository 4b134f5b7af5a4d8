package clauses

import (
	"strings"
	"testing"

	"feltpage/nlp"
	"feltpage/nlp/segment"
	"feltpage/nlp/tag"
)

var tagger *tag.Tagger

func parse(t testing.TB, text string) *nlp.Document {
	t.Helper()
	if tagger == nil {
		var err error
		if tagger, err = tag.Load(); err != nil {
			t.Fatal(err)
		}
	}
	d := segment.Split(text)
	tagger.Tag(d)
	Parse(d)
	return d
}

// sentences are invented. A line names one verb group as Describe does, but
// without quotes; what is not named is not compared, and "-" in the place of a
// value says that there must be none.
var sentences = []struct {
	in   string
	want []string
}{
	// Subjects and objects.
	{"The boy wept.", []string{"wept: subject The boy"}},
	{"Juniper baked a small loaf.", []string{"baked: subject Juniper, object a small loaf"}},
	{"The old fisher in the boat wept.", []string{"wept: subject The old fisher"}},
	{"The mother of the boy wept.", []string{"wept: subject The mother"}},
	{"The king's daughter laughed.", []string{"laughed: subject The king's daughter"}},
	{"His knees shook.", []string{"shook: subject His knees"}},
	{"The cold, dark wood frightened her.", []string{"frightened: subject The cold, dark wood, object her"}},
	{"The youngest smiled.", []string{"smiled: subject The youngest"}},
	{"She gave him a loaf.", []string{"gave: subject She, object a loaf, to him"}},
	{"She gave a loaf to the beggar.", []string{"gave: subject She, object a loaf, to the beggar"}},
	{"One day the goat ran away.", []string{"ran: subject the goat"}},
	{"That night she dreamed of the sea.", []string{"dreamed: subject she"}},
	{"Moss, the baker's boy, ran home.", []string{"ran: subject Moss"}},
	{"Juniper, Moss and the gull ran home.", []string{"ran: subject Juniper"}},

	// Auxiliaries, modals, negation.
	{"He had not been frightened by the dog.", []string{"frightened: subject He, by the dog, passive, negated"}},
	{"She did not cry.", []string{"cry: subject She, negated"}},
	{"He couldn't speak.", []string{"speak: subject He, could, negated"}},
	{"He never wept.", []string{"wept: subject He, negated"}},
	{"She was no longer afraid.", []string{"was: subject She, is afraid, copular, negated"}},
	{"He felt no fear.", []string{"felt: subject He, object no fear, negated"}},
	{"Nobody laughed.", []string{"laughed: subject Nobody, negated"}},
	{"I know not why he weeps.", []string{"know: subject I, negated", "weeps: subject he"}},
	{"He told her not to cry.", []string{"told: subject He, object her", "cry: subject her, under told, negated, infinitive"}},
	{"She would have been glad.", []string{"been: subject She, is glad, would, copular"}},
	{"He was not only tired but hungry.", []string{"was: subject He"}},
	{"They were all weeping.", []string{"weeping: subject They"}},
	{"He left without weeping.", []string{"left: subject He", "weeping: subject He, under left, negated, participle"}},

	{"The bride neither spoke nor laughed.", []string{"spoke: subject The bride, negated", "laughed: subject The bride, negated"}},
	{"He threw a stone, which at once turned into a gull.", []string{"turned: subject a stone"}},
	{"That very moment the gull laughed.", []string{"laughed: subject the gull"}},

	// Predicates.
	{"The boy was afraid.", []string{"was: subject The boy, is afraid, copular"}},
	{"She felt very lonely.", []string{"felt: subject She, is lonely, copular"}},
	{"He looked pale.", []string{"looked: subject He, is pale, copular"}},
	{"The king grew angry.", []string{"grew: subject The king, is angry, copular"}},
	{"Her face turned red.", []string{"turned: subject Her face, is red, copular"}},
	{"He was a brave man.", []string{"was: subject He, is man, copular"}},
	{"The news made him sad.", []string{"made: subject The news, object him, is sad"}},
	{"He became so frightened that he hid.", []string{"became: subject He, is frightened, copular", "hid: subject he"}},
	{"It was a cold day.", []string{"was: subject It"}},

	{"How cold it was!", []string{"was: subject it, is cold, copular"}},
	{"Very angry was the king.", []string{"was: subject the king, is angry, copular"}},
	{"He was a little afraid.", []string{"was: subject He, is afraid, copular"}},
	{"She was more than ever afraid.", []string{"was: subject She, is afraid, copular"}},
	{"They were not at all afraid of the sea.", []string{"were: subject They, is afraid, copular, negated"}},
	{"The woman was sore afraid.", []string{"was: subject The woman, is afraid, copular"}},
	{"You will find it, and be sorry.", []string{"find: subject You, object it, will", "be: subject You, is sorry, will, copular"}},
	{"At last one of them was glad.", []string{"was: subject one, is glad, copular"}},

	// Infinitives.
	{"The girl began to weep.", []string{"began: subject The girl", "weep: subject The girl, under began, infinitive"}},
	{"The noise made him tremble.", []string{"made: subject The noise, object him", "tremble: subject him, under made, infinitive"}},
	{"She saw the boy shiver.", []string{"saw: subject She, object the boy", "shiver: subject the boy, under saw, infinitive"}},
	{"He was afraid to speak.", []string{"was: subject He, is afraid", "speak: subject He, under was, infinitive"}},
	{"She wanted to laugh and sing.", []string{"laugh: subject She, under wanted, infinitive", "sing: subject She, under wanted, infinitive"}},
	{"The grandmother told the cousins to sit down.", []string{"sit: subject the cousins, under told, infinitive"}},

	// Participles.
	{"Trembling, the boy hid.", []string{"Trembling: subject the boy, participle", "hid: subject the boy"}},
	{"The boy, weeping, ran home.", []string{"weeping: subject The boy, participle", "ran: subject The boy"}},
	{"She sat by the fire, sobbing.", []string{"sat: subject She", "sobbing: subject She, participle"}},
	{"Frightened by the thunder, the goat fled.", []string{"Frightened: subject the goat, by the thunder, passive, participle", "fled: subject the goat"}},
	{"He saw her weeping.", []string{"saw: subject He, object her", "weeping: subject her, under saw, participle"}},
	{"She kept on crying.", []string{"kept: subject She", "crying: subject She, under kept, participle"}},
	{"The girl sitting on the wall laughed.", []string{"sitting: subject The girl, participle", "laughed: subject The girl"}},
	{"Seeing the wolf, the boy turned pale.", []string{"Seeing: subject the boy, object the wolf", "turned: subject the boy, is pale"}},

	// Speech.
	{`"Oh!" cried the boy.`, []string{"cried: subject the boy"}},
	{`"I am cold," said Moss, and he shivered.`, []string{"am: subject I, is cold", "said: subject Moss", "shivered: subject he"}},
	{`"Who is it?" asked the old woman.`, []string{"asked: subject the old woman"}},
	{`The boy said, "I am hungry."`, []string{"said: subject The boy", "am: subject I, is hungry"}},
	{`"Come here," she whispered.`, []string{"Come: subject -", "whispered: subject she"}},
	{`"Are you afraid?" he asked.`, []string{"Are: subject you, is afraid", "asked: subject he"}},
	{`"Did the gull frighten you?" she asked.`, []string{"frighten: subject the gull, object you"}},
	{"‘It hurts,’ sobbed Juniper.", []string{"hurts: subject It", "sobbed: subject Juniper"}},

	// Relative clauses.
	{"The girl who wept ran home.", []string{"wept: subject The girl", "ran: subject The girl"}},
	{"The dog that bit him growled.", []string{"bit: subject The dog, object him", "growled: subject The dog"}},
	{"The loaf that she baked was warm.", []string{"baked: subject she, object The loaf", "was: subject The loaf, is warm"}},
	{"The loaf she baked was warm.", []string{"baked: subject she, object The loaf", "was: subject The loaf, is warm"}},
	{"He met a man whose hands shook.", []string{"met: subject He, object a man", "shook: subject whose hands"}},
	{"The old man, who was tired, sat down.", []string{"tired: subject The old man, is tired, passive", "sat: subject The old man"}},

	{"The slates that kept out the rain fell.", []string{"kept: subject The slates, object the rain", "fell: subject The slates"}},
	{"A storm arose which shook the oven.", []string{"arose: subject A storm", "shook: subject A storm, object the oven"}},

	// Clauses together.
	{"She sat down and wept.", []string{"sat: subject She", "wept: subject She"}},
	{"The fox and the goat ran away.", []string{"ran: subject The fox"}},
	{"He saw the fox and the goat ran away.", []string{"saw: subject He, object the fox", "ran: subject the goat"}},
	{"When he came, the girl laughed.", []string{"came: subject he", "laughed: subject the girl"}},
	{"The girl laughed when he came.", []string{"laughed: subject The girl", "came: subject he"}},
	{"He said that she was ill.", []string{"said: subject He", "was: subject she, is ill"}},
	{"He thought the fox slept.", []string{"thought: subject He, object -", "slept: subject the fox"}},
	{"He thought she was angry and went away.", []string{"was: subject she, is angry"}},
	{"If you cry, I shall be sad.", []string{"cry: subject you", "be: subject I, is sad, shall"}},
	{"He ran as fast as he could; then he fell.", []string{"ran: subject He", "fell: subject he"}},
	{"After the storm the cousins were glad.", []string{"were: subject the cousins, is glad"}},
	{"She took the bread, broke it and ate.", []string{"took: subject She, object the bread", "broke: subject She, object it", "ate: subject She"}},

	{"He sat; spilled the flour; and wept.", []string{"spilled: subject He, object the flour", "wept: subject He"}},
	{"She saw a man who limped, and shivered, and growled.", []string{"limped: subject a man", "shivered: subject a man", "growled: subject a man"}},
	{"Why did the cousins and the gull on the wall look sad?", []string{"look: subject the cousins, is sad"}},
	{"Is there any bread?", []string{"Is: subject any bread"}},
	{"Trembling hands held the loaf.", []string{"held: subject Trembling hands, object the loaf"}},
	{"Many of the cousins were glad.", []string{"were: subject Many, is glad"}},
	{"His feet, though small, were cold.", []string{"were: subject His feet, is cold"}},

	{"A little while ago you used to laugh.", []string{"used: subject you", "laugh: subject you, under used, infinitive"}},
	{"He was sad, and then there was not enough of it.", []string{"was: subject -"}},

	// Turned round.
	{"In the wood lived a fox.", []string{"lived: subject a fox"}},
	{"There was once a poor fisher.", []string{"was: subject a poor fisher"}},
	{"Down came the rain.", []string{"came: subject the rain"}},
	{"Never had he been so happy.", []string{"been: subject he, is happy, negated"}},

	{"There lived by the sea, in a hut, a poor fisher.", []string{"lived: subject a poor fisher"}},
	{"On the roof grazed a white goat.", []string{"grazed: subject a white goat"}},
	{"On they flew.", []string{"flew: subject they"}},
	{"The cake was burnt, and so was the bread.", []string{"was: subject the bread"}},
	{"Nor did the gull cry.", []string{"cry: subject the gull"}},
	{"What is the matter?", []string{"is: subject the matter"}},
	{"\"That box,\" said he, \"is never empty.\"", []string{"is: subject That box, is empty, copular, negated"}},
	{"Encouraged by his smile the hare told him all.", []string{"Encouraged: subject the hare", "told: subject the hare"}},
	{"In vain Moss called her.", []string{"called: subject Moss"}},
	{"You needn't fear.", []string{"fear: subject You, need, negated"}},

	// Passive.
	{"The boy was frightened by a dog.", []string{"frightened: subject The boy, by a dog, passive"}},
	{"She was filled with joy.", []string{"filled: subject She, passive"}},
	{"He was gone.", []string{"gone: subject He"}},
}

func TestParse(t *testing.T) {
	for _, c := range sentences {
		d := parse(t, c.in)
		got := map[string]string{}
		for i := range d.Verbs {
			got[d.Word(d.Verbs[i].Head)] = strings.ReplaceAll(describe(d, i), "\"", "")
		}
		for _, want := range c.want {
			head, rest, _ := strings.Cut(want, ": ")
			have, ok := got[head]
			if !ok {
				t.Errorf("%s\n no verb %q in\n%s", c.in, head, Describe(d))
				continue
			}
			for _, part := range parts(rest) {
				if name, ok := strings.CutSuffix(part, " -"); ok {
					if strings.Contains(have, " "+name+" ") {
						t.Errorf("%s\n got %s\nwant no %s", c.in, have, name)
					}
				} else if !contains(parts(strings.TrimPrefix(have, head+": ")), part) {
					t.Errorf("%s\n got %s\nwant %s\n tags %s", c.in, have, part, tags(d))
				}
			}
		}
	}
}

// parts cuts a description at its commas, but not inside "cold, dark".
func parts(s string) []string {
	s = strings.ReplaceAll(s, "cold, dark", "cold; dark")
	return strings.Split(s, ", ")
}

func contains(all []string, one string) bool {
	for _, a := range all {
		if a == one {
			return true
		}
	}
	return false
}

func tags(d *nlp.Document) string {
	var out []string
	for i, t := range d.Tokens {
		out = append(out, d.Word(i)+"/"+t.Tag)
	}
	return strings.Join(out, " ")
}

func TestPredicates(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"Moss was tired, cold and very hungry.", "tired cold hungry"},
		{"She felt glad and merry.", "glad merry"},
		{"He was tired but not sad.", "tired"},
		{"He was cold and old men laughed.", "cold"},
		{"He slept.", ""},
	} {
		d := parse(t, c.in)
		var got []string
		for _, i := range d.Predicates(0) {
			got = append(got, d.Word(i))
		}
		if g := strings.Join(got, " "); g != c.want {
			t.Errorf("%s: got %q, want %q", c.in, g, c.want)
		}
	}
}
