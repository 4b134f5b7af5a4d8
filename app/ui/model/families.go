package model

import (
	"feltpage/app/record"
	"feltpage/nlp/feelings"
)

// TableOf adds the household's own families to the shipped ones, near to their
// nearest shipped one. A family that was put aside, or that only renames a
// shipped one, adds nothing.
func TableOf(shipped *feelings.Table, own []record.Family) (*feelings.Table, error) {
	var more []feelings.Family
	for _, f := range own {
		if _, known := shipped.Family(f.FamilyID); known || f.Away {
			continue
		}
		x := feelings.Family{ID: f.FamilyID, Plain: []string{f.Name}}
		if _, known := shipped.Family(f.Nearest); known {
			x.Nearest = f.Nearest
		}
		more = append(more, x)
	}
	if len(more) == 0 {
		return shipped, nil
	}
	return shipped.With(more...)
}
