// Reads a book in a folder as somebody would who was given it on a stick, from the disk and
// without a network: the search, the way from page to page, every link, and all of it with
// scripts off.
import assert from 'node:assert';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { pathToFileURL } from 'node:url';

const [folder, ...asked] = process.argv.slice(2);
const base = pathToFileURL(folder).href.replace(/\/?$/, '/');
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--disable-quic'],
});
const faults = [];
const watch = (page) => {
  page.on('pageerror', (e) => faults.push(String(e)));
  page.on('console', (m) => { if (m.type() === 'error') faults.push(m.text()); });
  page.on('request', (r) => { if (!r.url().startsWith(base) && !r.url().startsWith('data:')) faults.push('fetched ' + r.url()); });
};
const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
const page = await context.newPage();
watch(page);
const first = base + 'index.html';
await page.goto(first);

// every page is styled, says its name, and every link leads to a page and a place that are there
const files = readdirSync(folder).filter((f) => f.endsWith('.html'));
const seen = new Set(['index.html']);
const queue = ['index.html'];
const anchors = new Map();
const wanted = [];
while (queue.length) {
  const file = queue.shift();
  await page.goto(base + file);
  assert.notEqual(await page.evaluate(() => getComputedStyle(document.querySelector('.bar')).display), 'block', `${file} has its style`);
  assert.equal(await page.locator('h1').count(), 1, `${file} has one heading of the first level`);
  anchors.set(file, new Set(await page.evaluate(() => [...document.querySelectorAll('[id]')].map((e) => e.id))));
  for (const href of await page.evaluate(() => [...document.querySelectorAll('a[href]')].map((a) => a.href))) {
    if (!href.startsWith(base)) continue;
    const [to, hash] = href.slice(base.length).split('#');
    assert.ok(files.includes(to), `${file} leads to ${to}`);
    if (hash) wanted.push([file, to, hash]);
    if (!seen.has(to)) { seen.add(to); queue.push(to); }
  }
  const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  assert.ok(over <= 0, `${file} is ${over} px too wide`);
}
for (const [file, to, hash] of wanted) assert.ok(anchors.get(to).has(hash), `${file} leads to ${to}#${hash}`);
assert.deepEqual([...seen].sort(), files.sort(), 'every page can be come to');

// in the index no line begins with what stands between two
await page.goto(base + 'a-z.html');
assert.deepEqual(await page.evaluate(() => [...document.querySelectorAll('.index li')].flatMap((li) => {
  const walk = document.createTreeWalker(li, NodeFilter.SHOW_TEXT);
  const begun = [];
  let right = -1; // of what stands before it
  for (let n = walk.nextNode(); n; n = walk.nextNode()) {
    if (!n.data.trim()) continue;
    const r = document.createRange();
    r.setStart(n, n.data.search(/\S/));
    r.setEnd(n, n.data.search(/\S/) + 1);
    const x = r.getBoundingClientRect();
    if (n.data.trim()[0] === ';' && x.left < right) begun.push(li.textContent);
    r.selectNodeContents(n);
    const all = [...r.getClientRects()];
    right = all[all.length - 1].right - 2;
  }
  return begun;
})), [], 'lines of the index that begin with a semicolon');

// the search: each recipe is found by its whole name, first; and what was asked for is
await page.goto(first);
const names = await page.locator('#contents ul a').allInnerTexts();
assert.ok(names.length > 10);
const hits = () => page.locator('#hits a').allInnerTexts();
for (const name of names) {
  await page.locator('#q').fill(name);
  assert.ok((await hits()).includes(name), `${name} is found`);
  assert.equal((await hits())[0], name, `${name} comes first`);
}
for (const ask of asked) { // "leeks=Leek and potato soup"
  const [words, name] = ask.split('=');
  await page.locator('#q').fill(words);
  assert.ok((await hits()).includes(name), `${words} finds ${name}: ${await hits()}`);
}
await page.locator('#q').fill('xyzzy');
assert.equal(await page.locator('#count').innerText(), 'Nothing here has these words.');
await page.locator('#q').fill('<img src=x onerror=alert(1)>');
assert.equal(await page.locator('#found img').count(), 0);
await page.locator('#q').fill('');
assert.equal(await page.locator('#found').isHidden(), true);

// from any page, by the keyboard; what is found is opened
await page.locator('#contents ul a').first().tap();
assert.equal(await page.locator('h1').innerText(), names[0]);
await page.locator('#q').fill(names[names.length - 1]);
await page.keyboard.press('Enter');
await page.waitForURL(/index\.html\?q=/);
assert.equal((await hits())[0], names[names.length - 1]);
await page.locator('#hits a').first().tap();
assert.equal(await page.locator('h1').innerText(), names[names.length - 1]);
await page.locator('a[rel=prev]').tap();
await page.locator('a[rel=next]').tap();
assert.equal(await page.locator('h1').innerText(), names[names.length - 1], 'back and on again');

// a finger is 44 px wide
for (const file of ['index.html', 'a-z.html', files.find((f) => !['index.html', 'a-z.html', 'about.html'].includes(f))]) {
  await page.goto(base + file);
  const small = await page.evaluate(() => [...document.querySelectorAll('a, button, input')]
    .filter((e) => e.offsetParent && !e.matches('.skip, .prose a, .say a'))
    .map((e) => [e.textContent, e.getBoundingClientRect()])
    .filter(([, r]) => r.height < 43.5 || r.width < 43.5)
    .map(([t, r]) => `${t} ${r.width} by ${r.height}`));
  assert.deepEqual(small, [], `targets of ${file}`);
}
assert.deepEqual(faults, []);
await context.close();

// with scripts off the contents lead to everything
const plain = await browser.newContext({ javaScriptEnabled: false });
const still = await plain.newPage();
await still.goto(first);
assert.equal(await still.locator('#found').isHidden(), true);
await still.locator('#contents ul a').nth(1).click();
assert.equal(await still.locator('h1').innerText(), names[1]);
await browser.close();
console.log(`${files.length} pages, ${names.length} recipes found`);
