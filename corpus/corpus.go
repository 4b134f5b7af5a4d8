// Package corpus brings stories in and describes them. The root holds the
// shared types; ingest reads files, level measures readability, notes screens
// content, shelf holds the starter stories.
package corpus

import "feltpage/nlp"

// Story is a text with what is known about it.
type Story struct {
	ID       string // of a shelf story: its file name; else the hash
	Title    string
	Language string // BCP 47, "en"
	Text     string // as analysed; spans point into it
	Hash     string // lower-case hex SHA-256 of Text
	Origin   Origin
	Sections []Section
	Remarks  []nlp.Reason // what the guide should look at after an import; catalogue codes
}

// Section is a part of a story, usually a scene.
type Section struct {
	Title string
	Span  nlp.Span
}

// Origin says where a story comes from and on what terms.
type Origin struct {
	Source   string // "retold from a Japanese folk tale", "pasted by the guide"
	Licence  string // SPDX id or "unknown"
	Invented bool   // made up for this project
	FileName string // of an opened file
}

// Level is how hard a text is to read. Grades are US school grades; they can
// be negative on very short sentences.
type Level struct {
	Words, Sentences int
	Grade            float64 // Flesch-Kincaid grade, Kincaid et al. 1975
	Ease             float64 // Flesch Reading Ease 1948
	Minutes          float64 // at a calm reading-aloud pace
}

// Note is a content note: a catalogue code with the place it rests on.
type Note struct {
	Code string
	Span nlp.Span
}
