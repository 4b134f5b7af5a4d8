package characters

import "feltpage/nlp"

type pronounClass int

const (
	third     pronounClass = iota // he, she
	neuter                        // it
	they                          // they
	speaking                      // I
	addressed                     // you
	ours                          // we
)

// A pronounForm is what a pronoun tells by its form.
type pronounForm struct {
	class      pronounClass
	gender     string
	possessive bool // his, her before a noun
	reflexive  bool
}

var pronounForms = map[string]pronounForm{
	"he": {third, nlp.Male, false, false}, "him": {third, nlp.Male, false, false},
	"his": {third, nlp.Male, true, false}, "himself": {third, nlp.Male, false, true},
	"she": {third, nlp.Female, false, false}, "her": {third, nlp.Female, false, false},
	"hers": {third, nlp.Female, true, false}, "herself": {third, nlp.Female, false, true},
	"it": {neuter, "", false, false}, "its": {neuter, "", true, false}, "itself": {neuter, "", false, true},
	"they": {they, "", false, false}, "them": {they, "", false, false}, "their": {they, "", true, false},
	"theirs": {they, "", true, false}, "themselves": {they, "", false, true}, "'em": {they, "", false, false},
	"i": {speaking, "", false, false}, "me": {speaking, "", false, false}, "my": {speaking, "", true, false},
	"mine": {speaking, "", true, false}, "myself": {speaking, "", false, true},
	"you": {addressed, "", false, false}, "your": {addressed, "", true, false}, "yours": {addressed, "", true, false},
	"yourself": {addressed, "", false, true}, "yourselves": {addressed, "", false, true},
	"thou": {addressed, "", false, false}, "thee": {addressed, "", false, false}, "thy": {addressed, "", true, false},
	"thine": {addressed, "", true, false}, "thyself": {addressed, "", false, true}, "ye": {addressed, "", false, false},
	"we": {ours, "", false, false}, "us": {ours, "", false, false}, "our": {ours, "", true, false},
	"ours": {ours, "", true, false}, "ourselves": {ours, "", false, true},
}
