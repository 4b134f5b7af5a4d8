// Reads all development stories with wink-nlp (sentences, negation, sentiment,
// tags) and prints words a second, to stand beside `go test -bench Stories`.
// NODE_PATH names the folder of the packages.
// usage: node wink.cjs FOLDER-OF-STORIES
const { readdirSync, readFileSync } = require('fs')
const { join } = require('path')
const winkNLP = require('wink-nlp')
const model = require('wink-eng-lite-web-model')

const dir = process.argv[2]
const texts = readdirSync(dir).filter(f => f.endsWith('.jsonl')).sort().map(f =>
  readFileSync(join(dir, f), 'utf8').split('\n').filter(Boolean).map(l => JSON.parse(l).text + '\n\n').join(''))
const words = texts.reduce((n, t) => n + t.split(/\s+/).filter(Boolean).length, 0)
const nlp = winkNLP(model, ['sbd', 'negation', 'sentiment', 'pos'])
let best = 0
for (let i = 0; i < 3; i++) {
  const start = process.hrtime.bigint()
  for (const t of texts) nlp.readDoc(t)
  best = Math.max(best, words / (Number(process.hrtime.bigint() - start) / 1e9))
}
console.log(`wink-nlp ${words} words, best of 3: ${Math.round(best)} words/s`)
