// Validates what `tamis check --format sarif` and `--format json` print for the
// texts named on the command line: the first against the public SARIF 2.1.0
// schema (as the npm package @microsoft/jest-sarif ships it), the second
// against our own published schema, spec/findings.schema.json.
import { execFileSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import path from 'node:path';

const require = createRequire(import.meta.url);
const Ajv = require('ajv');
const [tamis, findings, ...texts] = process.argv.slice(2);
const home = path.dirname(require.resolve('@microsoft/jest-sarif/package.json'));
const read = (file) => JSON.parse(readFileSync(file, 'utf8'));
const sarifSchema = read(path.join(home, 'lib/schemas/sarif-2.1.0-rtm.5.json'));
const ajv = new Ajv({ schemaId: 'auto', allErrors: true, unknownFormats: 'ignore', logger: false });
const checks = { sarif: ajv.compile({ ...sarifSchema, $schema: undefined }), json: ajv.compile(read(findings)) };
let bad = 0, seen = 0;
for (const text of texts) {
  for (const format of ['sarif', 'json']) {
    let out;
    try {
      out = execFileSync(tamis, ['check', text, '--format', format], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
    } catch (e) {
      if (e.status !== 1) throw e;
      out = e.stdout; // the text has errors: that is what we came for
    }
    const data = JSON.parse(out);
    seen += format === 'json' ? data.length : 0;
    if (!checks[format](data)) {
      bad++;
      console.log(`${text} as ${format}:`, checks[format].errors.slice(0, 3));
    }
  }
}
console.log(`${seen} findings of ${texts.length} texts, ${bad} that do not fit their schema`);
process.exit(bad || !seen ? 1 : 0);
