package tag

import "feltpage/nlp"

// mend puts right the tags of one sentence.
func mend(d *nlp.Document, s nlp.Sentence) {}
