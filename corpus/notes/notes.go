// Package notes screens a story before a learner meets it: it finds words and
// phrases that tell of death, violence, cruelty, being abandoned, terror,
// drink, or that speak of people in a dated way. It is a first look for the
// guide, who reads the story and decides; a story without notes may still
// hold what a family would spare.
package notes

import "feltpage/corpus"

// Find gives the content notes of a text in text order.
func Find(text string) []corpus.Note { return english().find(text) }
