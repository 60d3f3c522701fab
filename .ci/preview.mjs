// Writes a menu beside `tamis preview`, as somebody does with an editor, and looks at its
// page in a browser: a slip is typed and seen, mended, and the sheets are seen; the page
// stays at its place, what was ticked stays ticked, a file is half written, renamed and
// taken away; nothing is fetched from elsewhere, and another page is not let in. Named on
// the command line: the program, a folder with a copy of an example and, to do no more than take
// a picture of the page, the file for it.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { createServer } from 'node:http';
import { readFileSync, writeFileSync, renameSync, rmSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const [program, folder, picture] = process.argv.slice(2);
const axe = readFileSync(new URL('./node_modules/axe-core/axe.min.js', import.meta.url), 'utf8');
const child = spawn(program, ['preview', folder], { stdio: ['ignore', 'pipe', 'inherit'] });
const ended = new Promise((done) => child.on('exit', (code) => done(code)));
const url = await new Promise((done) => child.stdout.on('data', (d) => { const m = /http:\S+/.exec(d); if (m) done(m[0]); }));

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--disable-quic'],
});
const faults = [];
const context = await browser.newContext({ viewport: { width: 1400, height: 900 } });
const page = await context.newPage();
page.on('pageerror', (e) => faults.push(String(e)));
page.on('console', (m) => { if (m.type() === 'error') faults.push(m.text()); });
page.on('request', (r) => { if (!r.url().startsWith(url) && !r.url().startsWith('data:')) faults.push('fetched ' + r.url()); });
await page.goto(url);

const menu = join(folder, 'menu.tamis'), dish = join(folder, 'cucumber-soup.tamis');
const text = readFileSync(dish, 'utf8');
const state = () => page.locator('#state').innerText();
const until = (what, arg) => page.waitForFunction(what, arg, { timeout: 30000, polling: 20 });
const settled = () => until(() => { const f = document.querySelector('iframe:not(.coming)'); return f && !document.querySelector('iframe.coming') && document.body.dataset.shown === f.dataset.sum && !/being made|Reading/.test(document.querySelector('#state').textContent); });
const sheets = () => page.frames().find((f) => f.url().includes('/sheets/'));
const holds = (words) => until((w) => [...document.querySelectorAll('iframe:not(.coming)')].some((f) => f.contentDocument.body.innerText.replace(/\s+/g, ' ').includes(w)), words);

await settled();
assert.match(await page.title(), /· Preview$/);
assert.ok(await page.locator('iframe').count() === 1);

if (picture) {
  await page.setViewportSize({ width: 1180, height: 760 });
  await page.locator('#file').selectOption('cucumber-soup.tamis');
  await page.locator('#lines li').filter({ hasText: /- / }).nth(1).click();
  await until(() => /^Step \d+ of/.test(document.querySelector('#reading').innerText.trim()));
  await page.screenshot({ path: picture });
  await browser.close();
  child.kill('SIGINT');
  await ended;
  process.exit(0);
}

// at a place: the last sheet, with a box ticked
const place = await sheets().evaluate(async () => {
  const all = [...document.querySelectorAll('.sheet')], s = all[all.length - 2];
  scrollTo({ top: s.getBoundingClientRect().top + scrollY + 40, behavior: 'instant' });
  const box = document.querySelector('input[type=checkbox]');
  box.click();
  for (let i = 0; i < 3; i++) await new Promise((drawn) => requestAnimationFrame(drawn)); // what was not seen is laid out now
  return { id: s.id, top: Math.round(s.getBoundingClientRect().top), box: box.id };
});

// a slip: a word that is no unit
writeFileSync(dish, text.replace('gather', 'gathr'));
await until(() => document.querySelector('#found .error'));
assert.match(await state(), /1? errors?.*The sheets are those of the last text without errors/);
assert.ok(await page.locator('#found').innerText().then((t) => t.includes('cucumber-soup.tamis, line') && t.includes('Try: ')), 'where, and what to write instead');
await until(() => /^cucumber-soup\.tamis, line \d+$/.test(document.querySelector('#where').innerText));
assert.equal(await page.locator('#lines li[aria-selected=true]').count(), 1);
assert.ok(await page.locator('#lines li.error').count() > 0, 'the line is marked');
assert.ok(await page.locator('#lines li[aria-selected=true]').innerText().then((t) => t.includes('gathr')), 'the line that was changed last is shown');
assert.ok((await sheets().evaluate(() => document.body.innerText)).length > 1000, 'the sheets stay');

// mended, and more besides: the page is made anew and stands where it stood
const more = text.replace(/serves (\d+)/, (_, n) => `serves ${+n + 1}`);
assert.notEqual(more, text);
const before = await page.evaluate(() => document.body.dataset.shown);
writeFileSync(dish, more);
await until((b) => document.body.dataset.shown !== b, before);
await settled();
assert.equal(await page.locator('#found .error').count(), 0);
const now = await sheets().evaluate(({ id, box }) => ({ top: Math.round(document.getElementById(id).getBoundingClientRect().top), ticked: document.getElementById(box).checked }), place);
assert.ok(Math.abs(now.top - place.top) <= 2, `the sheet stood at ${place.top}, and stands at ${now.top}`);
assert.ok(now.ticked, 'what was ticked is ticked');

// how long it takes from a save until its sheets stand on the page, by the clock on the wall
const took = [];
for (let i = 0; i < 20; i++) {
  await page.evaluate(() => {
    window.shown = new Promise((done) => {
      const was = document.body.dataset.shown;
      const see = new MutationObserver(() => { if (document.body.dataset.shown !== was) { see.disconnect(); done(Date.now()); } });
      see.observe(document.body, { attributes: true });
    });
  });
  const saved = Date.now();
  writeFileSync(dish, more.replace(/(\d+) g( +)fine salt/, (_, n, gap) => `${+n + 1 + i} g${gap}fine salt`));
  took.push(await page.evaluate(() => window.shown) - saved);
}
took.sort((a, b) => a - b);
writeFileSync(dish, more);
await until(() => document.querySelector('iframe:not(.coming)').contentDocument.body.innerText.includes('fine salt'));
await settled();

// a sentence is chosen in the text, with the mouse and the keyboard
const step = page.locator('#lines li').filter({ hasText: /- / }).first();
await step.click();
await until(() => /^Step \d+ of/.test(document.querySelector('#reading').innerText.trim()));
assert.match(await page.locator('#reading').innerText(), /takes/);
await page.locator('#lines').focus();
const line = await page.locator('#where').innerText();
await page.keyboard.press('ArrowUp');
await until((l) => document.querySelector('#where').innerText !== l, line);

// a finding leads to its line
writeFileSync(dish, more.replace('gather', 'gathr'));
await until(() => document.querySelector('#found .error'));
await page.locator('#found .error button').first().click();
await until(() => document.querySelector('#lines li[aria-selected=true].error'));

// half written, then whole; renamed; in a new folder; taken away
writeFileSync(dish, '');
writeFileSync(dish, more.slice(0, 200));
writeFileSync(dish, text);
await until(() => !document.querySelector('#found .error'));
await settled();
renameSync(dish, join(folder, 'soup.tamis'));
await until(() => [...document.querySelector('#file').options].some((o) => o.value === 'soup.tamis'));
await settled();
mkdirSync(join(folder, 'more'));
writeFileSync(join(folder, 'more', 'bread.tamis'), 'base Grilled bread\n  makes 20 slices\n  gather\n    20 slices bread\n  method\n    - Grill the bread. | work 5 min\n');
const menuText = readFileSync(menu, 'utf8');
writeFileSync(menu, menuText + '# served with bread\n');
await settled();
rmSync(join(folder, 'soup.tamis'));
await until(() => document.querySelector('#found .error'));
writeFileSync(dish, text);
await until(() => !document.querySelector('#found .error'));
await settled();

// no page from elsewhere reads it, or shows it in itself
const other = createServer((q, a) => { a.setHeader('Content-Type', 'text/html'); a.end('<!DOCTYPE html><title>other</title><iframe id="f"></iframe>'); }).listen(0, '127.0.0.1');
await new Promise((done) => other.on('listening', done));
const far = await context.newPage();
await far.goto(`http://127.0.0.1:${other.address().port}/`);
assert.equal(await far.evaluate((u) => fetch(u + 'text?file=menu.tamis&line=1').then((r) => r.text(), () => 'refused'), url), 'refused');
assert.equal(await far.evaluate((u) => fetch(u + 'events', { mode: 'no-cors' }).then((r) => r.type, () => 'refused'), url), 'refused');
await far.evaluate((u) => new Promise((done) => { const f = document.getElementById('f'); f.onload = done; f.src = u; }), url);
const framed = far.frames()[1];
assert.ok(!framed.url().startsWith(url) || !(await framed.content()).includes('What was found'), 'it is not framed');
await far.close();
other.close();
assert.equal((await fetch(url, { headers: { Origin: 'https://evil.example' } })).status, 403);

// as a reader meets it: contrast, names, order; on a narrow screen too
for (const width of [1400, 390]) {
  await page.setViewportSize({ width, height: 900 });
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth) <= 0, `not too wide at ${width}`);
  const cdp = await context.newCDPSession(page); // the page's own policy lets no script in: the browser's hand does
  await cdp.send('Runtime.evaluate', { expression: axe });
  const { result } = await cdp.send('Runtime.evaluate', { expression: `axe.run(document, { iframes: false }).then((r) => JSON.stringify(r.violations.map((v) => v.id + ' ' + v.nodes.map((n) => n.html).join(' '))))`, awaitPromise: true });
  assert.deepEqual(JSON.parse(result.value), [], `axe at ${width}`);
}
assert.deepEqual(faults, []);

// when it ends the page says so, and it ends cleanly
child.kill('SIGINT');
assert.equal(await ended, 0);
await until(() => /still running/.test(document.querySelector('#state').textContent));
await browser.close();
console.log(`wrote beside ${url}: from a save to its sheets on the page, median of ${took.length} ${took[10]} ms, 9 in 10 within ${took[17]} ms (wall clock, as this machine is)`);
