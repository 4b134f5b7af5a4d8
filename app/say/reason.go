package say

import "feltpage/nlp"

// named are the slots of reasons that hold ids, with the prefix under which
// the catalogue has the ids' names.
var named = map[string]string{"family": "family.", "second": "family.", "sign": "sign.", "place": "place."}

// Reason says a reason of the reading engine in words: ids of families, signs
// and places in its slots are replaced by their names. A household's own ids,
// which have no name here, stand for themselves.
func (c *Catalogue) Reason(r nlp.Reason) string {
	slots := make(map[string]string, len(r.Slots))
	for k, v := range r.Slots {
		if p := named[k]; p != "" && c.Has(p+v) {
			v = c.Say(p+v, nil)
		}
		slots[k] = v
	}
	return c.Say(r.Code, slots)
}
