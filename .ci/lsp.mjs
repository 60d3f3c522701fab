// Drives `tamis lsp` as an editor does, with the protocol's own client: connection,
// types and checks of vscode-languageserver-protocol 3.17. Named on the command line:
// the program, a folder with a copy of an example, and one with a book of 500 files.
import { createRequire } from 'node:module';
import { spawn } from 'node:child_process';
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL, fileURLToPath } from 'node:url';
import assert from 'node:assert/strict';

const require = createRequire(import.meta.url);
const lsp = require('vscode-languageserver-protocol/node');
const [program, example, book] = process.argv.slice(2);
const uri = (...p) => pathToFileURL(join(...p)).href;
const { Diagnostic, Location, Hover, DocumentSymbol, WorkspaceEdit, CodeAction, FoldingRange, TextEdit, InlayHint, SemanticTokens } = lsp;
let checks = 0;
const holds = (ok, what) => { checks++; assert.ok(ok, what); };
const all = (list, is, what) => { holds(Array.isArray(list) && list.length > 0, `${what}: none`); list.forEach((x) => holds(is(x), `${what}: ${JSON.stringify(x)}`)); };

async function start(folder) {
  const child = spawn(program, ['lsp', '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const ended = new Promise((done) => child.on('exit', done));
  const connection = lsp.createProtocolConnection(new lsp.StreamMessageReader(child.stdout), new lsp.StreamMessageWriter(child.stdin));
  const found = new Map(), waiting = [];
  connection.onNotification(lsp.PublishDiagnosticsNotification.type, (p) => {
    p.diagnostics.forEach((d) => holds(Diagnostic.is(d), `a diagnostic: ${JSON.stringify(d)}`));
    found.set(p.uri, p);
    for (const w of [...waiting]) if (w.uri === p.uri && w.version === p.version) { waiting.splice(waiting.indexOf(w), 1); w.done(p); }
  });
  connection.onRequest(lsp.RegistrationRequest.type, () => {});
  let refreshed = 0;
  connection.onRequest(lsp.InlayHintRefreshRequest.type, () => { refreshed++; });
  connection.listen();
  const answer = await connection.sendRequest(lsp.InitializeRequest.type, {
    processId: process.pid, rootUri: uri(folder), workspaceFolders: [{ uri: uri(folder), name: 'book' }],
    capabilities: { workspace: { workspaceEdit: { documentChanges: true }, inlayHint: { refreshSupport: true }, didChangeWatchedFiles: { dynamicRegistration: true } }, textDocument: { codeAction: { resolveSupport: { properties: ['edit'] } }, completion: { completionItem: { snippetSupport: true } } } },
  });
  await connection.sendNotification(lsp.InitializedNotification.type, {});
  const version = (u, v) => new Promise((done) => { const p = found.get(u); p?.version === v ? done(p) : waiting.push({ uri: u, version: v, done }); });
  return { connection, ended, found, answer, version, refreshed: () => refreshed };
}

function texts(folder, below = '') {
  return readdirSync(join(folder, below)).flatMap((n) => {
    const p = join(below, n);
    return statSync(join(folder, p)).isDirectory() ? texts(folder, p) : n.endsWith('.tamis') ? [p] : [];
  });
}

// The place of some words in a text; columns are UTF-16 units, as JavaScript counts.
function place(text, words, into = 0) {
  const i = text.indexOf(words) + into;
  assert.ok(i >= into, words);
  const before = text.slice(0, i).split('\n');
  return { line: before.length - 1, character: before.at(-1).length };
}

async function anExample() {
  const { connection: c, ended, found, answer, version, refreshed } = await start(example);
  holds(answer.capabilities.positionEncoding === 'utf-16' && answer.capabilities.textDocumentSync.change === lsp.TextDocumentSyncKind.Incremental, 'capabilities');
  const names = texts(example), open = {};
  for (const n of names) {
    const u = uri(example, n);
    open[n] = readFileSync(fileURLToPath(u), 'utf8');
    await c.sendNotification(lsp.DidOpenTextDocumentNotification.type, { textDocument: { uri: u, languageId: 'tamis', version: 1, text: open[n] } });
    await version(u, 1);
  }
  const name = names.find((n) => /\n {4}- /.test(open[n]) && /\n {2}gather/.test(open[n])), u = uri(example, name);
  const textDocument = { uri: u };
  let v = 1;
  const type = async (from, to, text) => {
    const s = place(open[name], from), e = place(open[name], from, from.length);
    open[name] = open[name].replace(from, () => text);
    await c.sendNotification(lsp.DidChangeTextDocumentNotification.type, { textDocument: { uri: u, version: ++v }, contentChanges: [{ range: { start: s, end: e }, text }] });
    return (await version(u, v)).diagnostics;
  };
  const clean = found.get(u).diagnostics.length;
  let diagnostics = await type('\n  gather\n', 0, '\n  gatehr\n');
  const fault = diagnostics.find((d) => d.severity === lsp.DiagnosticSeverity.Error);
  holds(fault && fault.source === 'tamis' && /Try: /.test(fault.message), 'a finding while typing');
  const actions = await c.sendRequest(lsp.CodeActionRequest.type, { textDocument, range: fault.range, context: { diagnostics: [fault] } });
  all(actions, CodeAction.is, 'code actions');
  const cure = actions.find((a) => a.kind === 'quickfix' && WorkspaceEdit.is(a.edit) && a.edit.documentChanges[0].edits[0].newText.includes('gather'));
  holds(cure && cure.edit.documentChanges[0].textDocument.version === v, 'a cure, for the version that is open');
  for (const a of actions.filter((a) => !a.edit)) {
    const done = await c.sendRequest(lsp.CodeActionResolveRequest.type, a).catch((e) => holds(e.code === lsp.LSPErrorCodes.RequestFailed, 'advice without a place'));
    if (done) holds(WorkspaceEdit.is(done.edit), 'advice carried out');
  }
  diagnostics = await type('\n  gatehr\n', 0, '\n  gather\n');
  holds(diagnostics.length === clean, 'mended');

  const line = open[name].match(/\n {4}\S+ ?\S* {2,}([a-z][a-z ]+[a-z])/);
  const at = { textDocument, position: place(open[name], line[0], line[0].length - 2) };
  holds(Hover.is(await c.sendRequest(lsp.HoverRequest.type, at)), 'hover');
  const list = await c.sendRequest(lsp.CompletionRequest.type, { textDocument, position: place(open[name], '\n  gather', 4) });
  holds(list.items.some((i) => i.label === 'gather'), 'completion');
  all(await c.sendRequest(lsp.DefinitionRequest.type, at), Location.is, 'definition');
  all(await c.sendRequest(lsp.ReferencesRequest.type, { ...at, context: { includeDeclaration: true } }), Location.is, 'references');
  all(await c.sendRequest(lsp.DocumentHighlightRequest.type, at), (h) => lsp.Range.is(h.range) && [2, 3].includes(h.kind), 'highlights');
  const title = open[name].match(/(?:dish|base) ([^\n]+)/);
  const renamed = await c.sendRequest(lsp.RenameRequest.type, { textDocument, position: place(open[name], title[0], 6), newName: 'Quite another thing' });
  holds(WorkspaceEdit.is(renamed) && renamed.documentChanges[0].edits.length >= 1, 'rename');
  await assert.rejects(c.sendRequest(lsp.RenameRequest.type, { ...at, newName: 'a | b' }), (e) => e.code === lsp.LSPErrorCodes.RequestFailed);
  all(await c.sendRequest(lsp.DocumentSymbolRequest.type, { textDocument }), DocumentSymbol.is, 'symbols');
  all(await c.sendRequest(lsp.WorkspaceSymbolRequest.type, { query: '' }), (s) => Location.is(s.location) && s.kind >= 1 && s.kind <= 26, 'workspace symbols');
  all(await c.sendRequest(lsp.FoldingRangeRequest.type, { textDocument }), FoldingRange.is, 'folds');
  const tokens = await c.sendRequest(lsp.SemanticTokensRequest.type, { textDocument });
  holds(SemanticTokens.is(tokens) && tokens.data.length % 5 === 0 && tokens.data.length > 50, 'semantic tokens');
  await type('\n  gather\n', 0, '\n  gather   \n');
  all(await c.sendRequest(lsp.DocumentFormattingRequest.type, { textDocument, options: { tabSize: 2, insertSpaces: true } }), TextEdit.is, 'formatting');
  await type('\n  gather   \n', 0, '\n  gather\n');
  for (const end = Date.now() + 60000; !refreshed() && Date.now() < end;) await new Promise((r) => setTimeout(r, 100));
  holds(refreshed() > 0, 'menus are planned when nobody types');
  const hints = await c.sendRequest(lsp.InlayHintRequest.type, { textDocument, range: { start: { line: 0, character: 0 }, end: { line: 10000, character: 0 } } });
  all(hints, InlayHint.is, 'hints');
  holds(hints.some((h) => /[0-9]:[0-9]{2}/.test(h.label)), 'hints have clock times');

  // A request that is taken back is answered as cancelled, or was answered already.
  const cancel = new lsp.CancellationTokenSource();
  const asked = c.sendRequest(lsp.WorkspaceSymbolRequest.type, { query: 'a' }, cancel.token);
  cancel.cancel();
  await asked.catch((e) => assert.equal(e.code, lsp.LSPErrorCodes.RequestCancelled));
  await assert.rejects(c.sendRequest('textDocument/dance', {}), (e) => e.code === lsp.ErrorCodes.MethodNotFound);
  await c.sendNotification(lsp.DidCloseTextDocumentNotification.type, { textDocument });
  await c.sendRequest(lsp.ShutdownRequest.type);
  await assert.rejects(c.sendRequest(lsp.HoverRequest.type, at), (e) => e.code === lsp.ErrorCodes.InvalidRequest);
  await c.sendNotification(lsp.ExitNotification.type);
  holds(await ended === 0, 'exit code after shutdown');
}

async function aBook() {
  const began = performance.now();
  const { connection: c, ended, found, version } = await start(book);
  const name = texts(book).find((n) => /^dish[^]*\n {4}- /.test(readFileSync(join(book, n), "utf8")));
  const u = uri(book, name);
  let text = readFileSync(join(book, name), 'utf8'), v = 1;
  await c.sendNotification(lsp.DidOpenTextDocumentNotification.type, { textDocument: { uri: u, languageId: 'tamis', version: v, text } });
  await version(u, v);
  const first = performance.now() - began;
  const took = [];
  const at = place(text, '\n    - ', 7);
  for (let i = 0; i < 200; i++) { // a letter, and taken back
    const start = performance.now();
    const change = i % 2 ? { range: { start: at, end: { ...at, character: at.character + 1 } }, text: '' } : { range: { start: at, end: at }, text: 'e' };
    await c.sendNotification(lsp.DidChangeTextDocumentNotification.type, { textDocument: { uri: u, version: ++v }, contentChanges: [change] });
    await version(u, v);
    took.push(performance.now() - start);
  }
  took.sort((a, b) => a - b);
  const ms = (x) => `${x.toFixed(0)} ms`;
  console.log(`${texts(book).length} files: first findings ${ms(first)}, program start counted; 200 edits: median ${ms(took[99])}, 99th percentile ${ms(took[197])} (wall clock, as this machine is)`);
  holds(found.size > 100, 'the whole book is told of');
  await c.sendRequest(lsp.ShutdownRequest.type);
  await c.sendNotification(lsp.ExitNotification.type);
  holds(await ended === 0, 'exit code');
}

async function goneAway() {
  const { connection: c, ended } = await start(example);
  await c.sendNotification(lsp.ExitNotification.type);
  holds(await ended === 1, 'exit code without shutdown');
}

await anExample();
await goneAway();
await aBook();
console.log(`${checks} checks of the protocol's own client hold`);
