package say

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"feltpage/nlp"
)

// kinds of slots that hold ids; their words are under "kind.ID".
var idSlots = map[string]string{
	"family": "family", "families": "family", "place": "place", "places": "place",
	"sign": "sign", "signs": "sign", "feeling": "family",
}

// Reason says a reason: the sentence of its code, the slots family, place and
// sign (and their plurals, comma lists) turned from ids into words, the first
// letter large, and "I" as a name said as the catalogue calls who tells the
// story. An id without words of its own is shown as it is, since a
// household names its own families.
func (c *Catalogue) Reason(r nlp.Reason) string {
	slots := make(map[string]string, len(r.Slots))
	for k, v := range r.Slots {
		switch kind := idSlots[k]; {
		case kind != "":
			v = c.names(kind, v)
		case k == "name":
			v = c.Name(v)
		case k == "whose" && v == "I's":
			v = c.Say("name.teller-whose", nil)
		}
		slots[k] = v
	}
	return large(c.Say(r.Code, slots))
}

// Name gives the name of a character as it can stand in a sentence: who tells a
// story as "I" has a name of the catalogue's.
func (c *Catalogue) Name(name string) string {
	if name == "I" {
		return c.Say("name.teller", nil)
	}
	return name
}

// Name gives the name of a character in English.
func Name(name string) string { return English().Name(name) }

// R says a reason in English.
func R(r nlp.Reason) string { return English().Reason(r) }

func (c *Catalogue) names(kind, ids string) string {
	var out []string
	for _, id := range strings.Split(ids, ",") {
		id = strings.TrimSpace(id)
		if text, ok := c.lines[kind+"."+id]; ok {
			id = text
		}
		out = append(out, id)
	}
	return c.List(out)
}

// List joins things as a sentence does, by the catalogue's own words for it.
func (c *Catalogue) List(things []string) string {
	switch len(things) {
	case 0:
		return ""
	case 1:
		return things[0]
	}
	last := len(things) - 1
	return c.Say("list.last", S{"first": strings.Join(things[:last], c.Say("list.comma", nil)+" "), "last": things[last]})
}

// large makes the first letter of a sentence large. One that begins with a
// quotation keeps the text's own letter.
func large(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if r == utf8.RuneError {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
