// Validates the `events` of documents that `tamis build --to json` wrote, named
// on the command line, against our published schema, spec/events.schema.json.
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';

const require = createRequire(import.meta.url);
const Ajv = require('ajv');
const [schema, ...files] = process.argv.slice(2);
const read = (file) => JSON.parse(readFileSync(file, 'utf8'));
const check = new Ajv({ allErrors: true }).compile(read(schema));
let bad = 0, seen = 0;
for (const file of files) {
  const { events } = read(file);
  if (!events) continue;
  seen += events.length;
  if (!check(events)) {
    bad++;
    console.log(`${file}:`, check.errors.slice(0, 3));
  }
}
console.log(`${seen} events, ${bad} files whose events do not fit their schema`);
process.exit(bad || !seen ? 1 : 0);
