package cues

import (
	"strings"

	"feltpage/nlp"
)

// reason says why a cue was found: the row's code with its slots, a code of
// its own where the feeling is denied or only shown.
func reason(row *row, c *nlp.Cue, words, sign string) nlp.Reason {
	slots := map[string]string{"words": strings.Join(strings.Fields(words), " ")}
	if len(c.Feelings) > 0 {
		slots["family"] = c.Feelings[0].Family
	}
	if sign != "" && row.kind != nlp.Speech {
		slots["sign"] = sign
		if len(c.Places) > 0 {
			slots["place"] = c.Places[0]
		}
	}
	code := "cue." + row.code
	switch {
	case c.Denied:
		return nlp.Reason{Code: "cue.denied", Slots: slots}
	case c.Pretended:
		return nlp.Reason{Code: "cue.pretended", Slots: slots}
	}
	if len(c.Feelings) > 1 && c.Feelings[1].Weight >= 0.4*c.Feelings[0].Weight {
		slots["feeling"] = c.Feelings[1].Family
		code += "-or"
	}
	return nlp.Reason{Code: code, Slots: slots}
}
