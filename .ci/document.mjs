// Validates documents that `tamis build --to json` wrote, named on the command line, against
// our published schema, spec/document.schema.json.
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';

const require = createRequire(import.meta.url);
const Ajv = require('ajv');
const [schema, ...files] = process.argv.slice(2);
const read = (file) => JSON.parse(readFileSync(file, 'utf8'));
const check = new Ajv({ allErrors: false }).compile(read(schema));
let bad = 0;
for (const file of files) {
  if (!check(read(file))) {
    bad++;
    console.log(`${file}:`, check.errors.slice(0, 3));
  }
}
console.log(`${files.length} documents, ${bad} that do not fit their schema`);
process.exit(bad || !files.length ? 1 : 0);
