// Reads built PDFs with a library of others and holds their tags to what PDF/UA-1
// (ISO 14289-1, from memory; no checker of it is served here) asks and can be seen from
// outside: the document is marked, has a language and a title that is shown; every page has
// a tree; every word is either in it or furniture, each once; figures have words; lists and
// tables are built of their parts, rows of a table as many cells wide (by qpdf, for empty cells
// hold no words); headings skip no level.
import assert from 'node:assert';
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

const inside = {
  Table: ['TR', 'THead', 'TBody', 'TFoot', 'Caption'], THead: ['TR'], TBody: ['TR'], TR: ['TH', 'TD'],
  L: ['LI', 'Caption', 'Lbl'], LI: ['Lbl', 'LBody'],
};

for (const file of process.argv.slice(2)) {
  const pdf = await getDocument({ data: new Uint8Array(readFileSync(file)), verbosity: 0 }).promise;
  const say = (page, text) => `${file}, page ${page}: ${text}`;
  const { info } = await pdf.getMetadata();
  assert.ok(info.Title, `${file} has no title`);
  assert.ok(info.Language, `${file} has no language`);
  assert.ok((await pdf.getMarkInfo())?.Marked, `${file} is not marked`);
  assert.ok((await pdf.getViewerPreferences())?.DisplayDocTitle, `${file} shows its file name for a title`);
  let level = 0;
  let words = 0;
  for (let n = 1; n <= pdf.numPages; n++) {
    const page = await pdf.getPage(n);
    const tree = await page.getStructTree();
    assert.ok(tree, say(n, 'has no tree'));
    const ids = new Map();
    const walk = (node, above) => {
      for (const c of node.children ?? []) {
        if (c.type) {
          if (c.type === 'content') {
            assert.ok(!ids.has(c.id), say(n, `${c.id} stands twice in the tree`));
            ids.set(c.id, node.role);
          }
          continue;
        }
        const may = inside[node.role];
        assert.ok(!may || may.includes(c.role), say(n, `${c.role} in ${node.role}`));
        if (c.role === 'Figure') assert.ok(c.alt?.trim(), say(n, 'a figure without words'));
        const h = /^H([1-6])$/.exec(c.role);
        if (h) {
          assert.ok(+h[1] <= level + 1, say(n, `H${h[1]} after H${level}`));
          level = +h[1];
        }
        walk(c, node);
      }
    };
    walk(tree, null);
    const open = [];
    for (const item of (await page.getTextContent({ includeMarkedContent: true })).items) {
      switch (item.type) {
        case 'beginMarkedContentProps': open.push(item.id ?? item.tag); continue;
        case 'beginMarkedContent': open.push(item.tag); continue;
        case 'endMarkedContent': open.pop(); continue;
      }
      if (!item.str.trim()) continue;
      words++;
      assert.ok(open.some((o) => o === 'Artifact' || ids.has(o)), say(n, `“${item.str}” is neither in the tree nor furniture`));
    }
  }
  const objects = JSON.parse(execFileSync('qpdf', ['--json=2', '--json-key=qpdf', '--json-stream-data=none', file], { maxBuffer: 1 << 28 })).qpdf[1];
  const at = (ref) => objects['obj:' + ref]?.value;
  const kids = (node) => [node['/K'] ?? []].flat().filter((k) => typeof k === 'string').map(at);
  let tables = 0;
  for (const { value } of Object.values(objects)) {
    if (value?.['/S'] !== '/Table') continue;
    tables++;
    const wide = kids(value).filter((r) => r['/S'] === '/TR').map((r) => kids(r).reduce((n, c) => n + (c['/A']?.['/ColSpan'] ?? 1), 0));
    assert.ok(new Set(wide).size <= 1, `${file}: a table with rows of ${[...new Set(wide)]} cells`);
  }
  console.log(`tagged ${file}: ${words} words, ${tables} tables`);
  await pdf.destroy();
}
