// Reads all development stories with wink-nlp (sentences, negation, sentiment,
// tags) and prints words a second, to stand beside `go test -bench Stories`.
// usage: node wink.mjs FOLDER-OF-STORIES
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import winkNLP from 'wink-nlp'
import model from 'wink-eng-lite-web-model'

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
