package characters

import (
	"sort"

	"feltpage/nlp"
)

// findHandles gives every name and described somebody a handle: the name, or
// the noun. A handle's mentions tell where somebody will be named again before
// he is: a writer who names Juniper in the same sentence seldom meant her by
// the "she" before.
func (r *reading) findHandles() {
	r.handle = fill(len(r.mentions))
	byLemma := map[headKey]int{}
	byCluster := fill(len(r.clusters))
	for i := range r.mentions {
		m := &r.mentions[i]
		h := nlp.None
		switch {
		case m.kind == proper && m.cluster != nlp.None:
			h = byCluster[m.cluster]
			if h == nlp.None {
				h = len(r.handles)
				byCluster[m.cluster] = h
				r.handles = append(r.handles, nil)
			}
		case m.kind == nominal && m.noun.kind != "":
			k := headKey{norm(m.lemma), m.plural}
			at, ok := byLemma[k]
			if !ok {
				at = len(r.handles)
				byLemma[k] = at
				r.handles = append(r.handles, nil)
			}
			h = at
		default:
			continue
		}
		r.handle[i] = h
		r.handles[h] = append(r.handles[h], i)
		if r.tags[i] {
			for len(r.speaks) <= h {
				r.speaks = append(r.speaks, false)
			}
			r.speaks[h] = true
		}
	}
}

// speaking reports whether somebody under the handle of mention i speaks in
// this text.
func (r *reading) speaking(i int) bool {
	if i == nlp.None || i >= len(r.handle) {
		return false
	}
	h := r.handle[i]
	return h >= 0 && h < len(r.speaks) && r.speaks[h]
}

// ahead gives the mentions of a handle after mention i.
func (r *reading) ahead(h, i int) []int {
	if h == nlp.None {
		return nil
	}
	l := r.handles[h]
	return l[sort.SearchInts(l, i+1):]
}
