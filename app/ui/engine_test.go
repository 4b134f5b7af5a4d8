package ui

import (
	"context"
	"regexp"
	"testing"

	"feltpage/app/ui/model"
	"feltpage/nlp"
	"feltpage/nlp/segment"
	"feltpage/nlp/tag"
)

const version = "test"

type phrases struct{ tagger *tag.Tagger }

var found = regexp.MustCompile(`(?i)\b(afraid|cold|hungry|tired|glad|happy|cried|wept|trembl\w+|shook|shiver\w+|laugh\w+|sigh\w+|hid|ran|hurt|thirsty|pale|knees \w+)\b`)

func (e phrases) Analyze(ctx context.Context, text string) (*nlp.Analysis, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	a := &nlp.Analysis{Engine: version, Doc: segment.Split(text)}
	e.tagger.Tag(a.Doc)
	a.Characters = []nlp.Character{{ID: 0, Name: "the boy", Kind: nlp.Person, Mentions: []nlp.Mention{{Span: a.Doc.Sentences[0].Span}}}}
	kinds := []string{nlp.Named, nlp.Body, nlp.FaceVoice, nlp.Action, nlp.Speech, nlp.Situation}
	for i, m := range found.FindAllStringIndex(text, -1) {
		who := nlp.None
		for _, c := range a.Characters {
			for _, x := range c.Mentions {
				if x.Span.Start < m[0] && true {
					who = c.ID
				}
			}
		}
		a.Cues = append(a.Cues, nlp.Cue{Span: nlp.Span{Start: m[0], End: m[1]}, Kind: kinds[i%len(kinds)], Character: who,
			Feelings: []nlp.Weight{{Family: "fear", Weight: 0.6}, {Family: "cold", Weight: 0.3}}, Places: []string{"hands"}, Strength: nlp.Plain, Rule: "x",
			Reason: nlp.Reason{Code: "body-sign", Slots: map[string]string{"sign": "shaking", "place": "hands"}}})
	}
	return a, nil
}

func engine(t *testing.T) model.Engine {
	tg, err := tag.Load()
	if err != nil {
		t.Fatal(err)
	}
	return phrases{tg}
}
