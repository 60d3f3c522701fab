// Colours texts with an editor's own engine (vscode-textmate, oniguruma) by our TextMate
// grammar, and holds it to the language server: what that calls a word, a title, a
// figure or a comment, the grammar calls so too. Named on the command line: the
// program, the grammar, and folders of texts.
import { createRequire } from 'node:module';
import { spawn } from 'node:child_process';
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const require = createRequire(import.meta.url);
const lsp = require('vscode-languageserver-protocol/node');
const tm = require('vscode-textmate');
const onig = require('vscode-oniguruma');
const [program, file, ...folders] = process.argv.slice(2);
await onig.loadWASM(readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm')).buffer);
const registry = new tm.Registry({
  onigLib: Promise.resolve({ createOnigScanner: (p) => new onig.OnigScanner(p), createOnigString: (s) => new onig.OnigString(s) }),
  loadGrammar: async () => tm.parseRawGrammar(readFileSync(file, 'utf8'), file),
});
const grammar = await registry.loadGrammar('source.tamis');

function scopes(text) {
  let stack = tm.INITIAL;
  return text.split('\n').map((line) => {
    const r = grammar.tokenizeLine(line, stack);
    stack = r.ruleStack;
    return (at) => r.tokens.find((t) => t.startIndex <= at && at < t.endIndex)?.scopes.join(' ') ?? '';
  });
}

// What each kind of semantic token is to be in the grammar.
const wanted = { keyword: /keyword/, class: /entity\.name/, comment: /comment/ };
const child = spawn(program, ['lsp'], { stdio: ['pipe', 'pipe', 'inherit'] });
const c = lsp.createProtocolConnection(new lsp.StreamMessageReader(child.stdout), new lsp.StreamMessageWriter(child.stdin));
c.listen();
const { capabilities } = await c.sendRequest(lsp.InitializeRequest.type, { processId: process.pid, rootUri: null, capabilities: {} });
const types = capabilities.semanticTokensProvider.legend.tokenTypes;
const texts = (d) => readdirSync(d).flatMap((n) => (statSync(join(d, n)).isDirectory() ? texts(join(d, n)) : n.endsWith('.tamis') ? [join(d, n)] : []));
const seen = {}, wrong = [];
for (const name of folders.flatMap(texts)) {
  const text = readFileSync(name, 'utf8'), uri = pathToFileURL(resolve(name)).href, lines = text.split('\n'), of = scopes(text);
  await c.sendNotification(lsp.DidOpenTextDocumentNotification.type, { textDocument: { uri, languageId: 'tamis', version: 1, text } });
  const { data } = await c.sendRequest(lsp.SemanticTokensRequest.type, { textDocument: { uri } });
  for (let i = 0, line = 0, at = 0; i < data.length; i += 5) {
    at = data[i] ? data[i + 1] : at + data[i + 1];
    line += data[i];
    const type = types[data[i + 3]];
    if (!wanted[type]) continue;
    seen[type] = (seen[type] ?? 0) + 1;
    if (!wanted[type].test(of[line](at))) wrong.push(`${name}:${line + 1}:${at + 1} ${type} ${JSON.stringify(lines[line].slice(at, at + data[i + 2]))} is ${of[line](at)}`);
  }
  await c.sendNotification(lsp.DidCloseTextDocumentNotification.type, { textDocument: { uri } });
}

// And what must not be coloured as a word: a name that begins as one, prose, a headnote.
const own = `dish Base soup
  about
    serves as a base; method of the house
  gather
    2        base onions, work of art | work 5 min
    serves cress
  method
    - Serve the base onions at once. | ring low
    - At work, rest.
  serve hot
`;
const at = scopes(own), rows = own.split('\n');
for (const [line, words, is, not] of [
  [0, 'dish', /keyword/], [0, 'Base', /entity\.name/, /keyword/], [2, 'serves', /prose/, /keyword/], [2, 'method', /prose/, /keyword/],
  [4, '2', /numeric/], [4, 'base', /source/, /keyword/], [4, 'work of', /note/, /keyword/], [4, 'work 5', /keyword/], [5, 'serves', /source/, /keyword/],
  [7, 'Serve', /source/, /keyword/], [7, 'base', /source/, /keyword/], [7, 'ring', /keyword/], [8, 'At', /source/, /keyword/], [9, 'serve', /keyword/],
]) {
  const s = at[line](rows[line].indexOf(words));
  if (!is.test(s) || not?.test(s)) wrong.push(`own text, line ${line + 1}: ${words} is ${s}`);
}
console.log(Object.entries(seen).map(([k, n]) => `${n} of ${k}`).join(', '), `coloured as the language server has them; ${wrong.length} are not`);
wrong.slice(0, 20).forEach((w) => console.log(w));
await c.sendRequest(lsp.ShutdownRequest.type);
await c.sendNotification(lsp.ExitNotification.type);
process.exit(wrong.length || !seen.keyword ? 1 : 0);
