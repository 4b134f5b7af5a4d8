// Reads JSON lines, each a string, and writes for each a JSON line with the
// sentence borders that wink-nlp and sbd find in it, as numbers of characters
// (UTF-16 units) before the border that are not blank. Blanks do not count,
// because the libraries drop or join them.
//
// NODE_PATH names the folder of the packages. Used by compare_test.go.
const winkNLP = require('wink-nlp');
const model = require('wink-eng-lite-web-model');
const sbd = require('sbd');
const nlp = winkNLP(model, ['sbd']);

const shown = (s) => s.replace(/\s+/g, '').length;

function borders(sentences) {
  const out = [];
  let n = 0;
  for (const s of sentences) {
    n += shown(s);
    out.push(n);
  }
  return out;
}

const lines = require('fs').readFileSync(0, 'utf8').split('\n').filter((l) => l);
for (const line of lines) {
  const text = JSON.parse(line);
  console.log(JSON.stringify({
    total: shown(text),
    wink: borders(nlp.readDoc(text).sentences().out()),
    sbd: borders(sbd.sentences(text, { newline_boundaries: false, preserve_whitespace: true })),
  }));
}
