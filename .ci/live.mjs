// Uses a built page as a cook would, on the day: the line of now, a timer that
// is started by a tap and outlives a reload, a tick that is kept; the same from
// the keyboard; that nothing is fetched, nothing moves, and no target is smaller
// than a finger; and that all of it can be read, ticked and printed with scripts off.
import assert from 'node:assert';
import { chromium } from 'playwright-core';
import { pathToFileURL } from 'node:url';

const [file, moment] = process.argv.slice(2);
const url = pathToFileURL(file).href;
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--disable-quic'],
});
const faults = [];
const context = await browser.newContext({ viewport: { width: 390, height: 800 }, hasTouch: true });
const page = await context.newPage();
page.on('pageerror', (e) => faults.push(String(e)));
page.on('console', (m) => { if (m.type() === 'error') faults.push(m.text()); });
page.on('request', (r) => { if (r.url() !== url && r.url() !== 'about:blank' && !r.url().startsWith(url + '#')) faults.push('fetched ' + r.url()); });
await page.clock.install({ time: new Date(moment) });
await page.goto(url);

// now
const clock = moment.slice(11, 16);
assert.equal(await page.locator('svg.chart .now').count(), 1, 'one chart holds this minute');
const current = page.locator('tr[aria-current=time]');
assert.ok(await current.count() >= 1, 'a row of the run sheet is on');
const at = await current.first().getAttribute('data-at');
assert.ok(+at <= +clock.slice(0, 2) * 60 + +clock.slice(3), `row at ${at} is not later than ${clock}`);
assert.equal(await page.locator('nav a[href="#now"]').innerText(), `Now ${clock}`);

// the time of a course can be read on a telephone
for (const th of await page.locator('.board tr.bar th').all()) {
  const words = await th.evaluate((e) => { const r = document.createRange(); r.selectNodeContents(e); return r.getBoundingClientRect().width; });
  assert.ok((await th.boundingBox()).width >= words, `${await th.innerText()} stands on its bar`);
}

// the whole of it is no more than 25 screens of a telephone of 390 by 844
assert.ok(await page.evaluate(() => document.documentElement.scrollHeight) <= 25 * 844, 'the page is longer than 25 screens');

// what each cook is at, and who is reading
const cooks = await page.evaluate(() => [...new Set([...document.querySelectorAll('.board th[data-cook]')].map((th) => th.dataset.cook))]);
assert.ok(cooks.length > 1, 'several cooks');
const onNow = () => page.locator('.onnow p > b').allInnerTexts().then((l) => l.map((t) => t.trim()));
assert.deepEqual(await onNow(), cooks, 'what is on now for everybody');
const shown = (sel) => page.locator(sel).evaluateAll((l) => l.filter((e) => e.offsetParent).map((e) => e.innerText));
const everybody = (await shown('.sheet')).length;
await page.getByRole('button', { name: cooks[1], exact: true }).tap();
assert.deepEqual(await onNow(), [cooks[1]], 'and for one');
assert.deepEqual(await shown(`.board td[data-cook="${cooks[0]}"]`), [], 'nothing of anybody else');
assert.ok((await shown(`.board td[data-cook="${cooks[1]}"]`)).length > 3);
assert.ok((await shown('.sheet')).length < everybody, 'no sheet of what others cook');
assert.ok(await page.locator('.step.mine').count() > 0);
await page.reload();
assert.deepEqual(await onNow(), [cooks[1]], 'who reads is kept');
assert.equal(await page.evaluate(() => { // paper has all of it
  const hide = [...document.styleSheets].flatMap((s) => [...s.cssRules]).filter((r) => r.media?.mediaText === 'screen' && r.cssText.includes('.off'));
  return hide.length;
}), 1);
await page.getByRole('button', { name: 'Everybody' }).tap();
assert.equal((await shown('.sheet')).length, everybody);

// a timer
const timer = page.locator('.step .timer').first();
const minutes = +(await page.locator('.margin li[data-min], .look li[data-min]').first().getAttribute('data-min'));
const box = await timer.boundingBox();
assert.ok(box.height >= 44 && box.width >= 44, `a target of ${box.width} by ${box.height}`);
await timer.tap();
assert.equal(await timer.getAttribute('aria-pressed'), 'true');
await page.clock.runFor(75_000);
const left = await page.locator('.timers li b').innerText();
assert.ok(left.startsWith(`${minutes - 2}:`), `${left} left of ${minutes} min after 75 s`);
await page.locator('input[type=checkbox]').first().check({ force: true });
await page.reload();
assert.equal(await page.locator('.timers li').count(), 1, 'the timer outlives a reload');
assert.equal(await page.locator('input[type=checkbox]').first().isChecked(), true, 'a tick is kept');
await page.clock.runFor(minutes * 60_000);
assert.equal(await page.locator('.timers li b').innerText(), 'time is up');
assert.match(await page.locator('[role=status]').innerText(), /^Time is up/);
await page.locator('.timers .timer').tap();
assert.equal(await page.locator('.timers').isHidden(), true);

// the keyboard: the first stop skips to the sheets, a box is ticked by the
// space bar and a timer started by Enter, and where one is can be seen
await page.goto('about:blank');
await page.goto(url);
await page.keyboard.press('Tab');
assert.equal(await page.evaluate(() => document.activeElement.className), 'skip');
await page.keyboard.press('Enter');
assert.equal(new URL(page.url()).hash, '#sheets');
const focused = (sel) => page.evaluate((s) => document.activeElement.matches(s), sel);
let stops = 0;
while (!(await focused('input[type=checkbox]')) && stops++ < 300) await page.keyboard.press('Tab');
assert.ok(await focused('input[type=checkbox]'), 'boxes are reached with Tab');
const box2 = await page.evaluate(() => document.activeElement.id);
const was = await page.locator('#' + box2).isChecked();
await page.keyboard.press('Space');
assert.equal(await page.locator('#' + box2).isChecked(), !was);
const ring = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle + ' ' + parseFloat(getComputedStyle(document.activeElement).outlineWidth));
assert.match(ring, /^solid [3-9]/, 'focus is seen');
await page.locator('.step .timer').first().focus();
await page.keyboard.press('Enter');
assert.equal(await page.locator('.timers li').count(), 1, 'Enter starts a timer');
await page.keyboard.press('Enter');
assert.equal(await page.locator('.timers').isHidden(), true, 'and stops it');

// the order of Tab is the order of the page
assert.ok(await page.evaluate(() => {
  const all = [...document.querySelectorAll('a, button, input, [tabindex]')].filter((e) => e.offsetParent);
  return all.every((e, n) => e.tabIndex <= 0 && (n === 0 || all[n - 1].compareDocumentPosition(e) & Node.DOCUMENT_POSITION_FOLLOWING));
}), 'no tab index jumps about');

// ticks belong to the menu and its revision, wherever the file lies
const keys = await page.evaluate(() => Object.keys(localStorage));
const named = await page.evaluate(() => document.title + ' ' + document.body.dataset.rev);
assert.ok(keys.includes('ticks ' + named), keys.join());

// nothing moves by itself
assert.equal(await page.evaluate(() => document.getAnimations().length), 0);
await page.emulateMedia({ reducedMotion: 'reduce' });
assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior), 'auto');
await page.emulateMedia({ reducedMotion: null });

// a finger is 44 px wide; links inside a sentence are as large as its words
for (const width of [390, 1100]) {
  await page.setViewportSize({ width, height: 800 });
  const small = await page.evaluate(() => [...document.querySelectorAll('a, button, label.tick')]
    .filter((e) => e.offsetParent && !e.matches('.skip, .prose a, .say a, .care a'))
    .map((e) => [e.textContent, e.getBoundingClientRect()])
    .filter(([, r]) => r.width < 43.5 || r.height < 43.5)
    .map(([t, r]) => `${t} ${r.width} by ${r.height}`));
  assert.deepEqual(small, [], `targets at ${width} px`);
}

// nothing stands wider than the screen
for (const width of [390, 1100]) {
  await page.setViewportSize({ width, height: 800 });
  const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  assert.ok(over <= 0, `at ${width} px the page is ${over} px too wide`);
}

// a unit is never broken inside a word
for (const width of [320, 390, 700, 1100, 1200]) {
  await page.setViewportSize({ width, height: 800 });
  const broken = await page.evaluate(() => [...document.querySelectorAll('.am span, .am b')].filter((s) => {
    const one = Math.max(...s.textContent.split(/\s+/).map((w) => w.length));
    const range = document.createRange();
    const text = s.firstChild;
    if (!text) return false;
    let from = 0;
    for (const word of s.textContent.split(/(\s+)/)) {
      range.setStart(text, from);
      range.setEnd(text, from + word.length);
      from += word.length;
      if (word.trim() && new Set([...range.getClientRects()].map((r) => Math.round(r.top))).size > 1) return one > 0;
    }
    return false;
  }).map((s) => s.textContent));
  assert.deepEqual(broken, [], `words broken at ${width} px`);
}
assert.deepEqual(faults, []);
await context.close();

// the clock is the kitchen's, wherever the telephone is
const zone = await (await browser.newPage()).evaluate(() => Intl.DateTimeFormat().resolvedOptions().timeZone);
const abroad = await browser.newContext({ timezoneId: 'Asia/Tokyo' });
const far = await abroad.newPage();
await far.clock.install({ time: new Date(moment) });
await far.goto(url);
if (await far.evaluate(() => !!document.body.dataset.zone)) {
  const there = await far.evaluate(() => new Intl.DateTimeFormat('en-GB', { timeZone: document.body.dataset.zone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(new Date()));
  assert.equal(await far.locator('nav a[href="#now"]').innerText(), `Now ${there}`);
} else {
  assert.ok(zone);
}
await abroad.close();

// with scripts off
const plain = await browser.newContext({ javaScriptEnabled: false, viewport: { width: 390, height: 800 } });
const still = await plain.newPage();
await still.goto(url);
assert.ok((await still.locator('.margin li[data-min], .look li[data-min]').first().innerText()).length > 4);
assert.equal(await still.locator('.timer').count(), 0);
const tick = still.locator('label.tick').first();
await tick.click();
assert.equal(await still.locator('input[type=checkbox]').first().isChecked(), true, 'boxes tick without a script');
await still.locator('nav a').last().click();
assert.ok(await still.evaluate(() => scrollY) > 500, 'links lead on');

// on paper: black on white whatever the screen, no menu, boxes to tick, and
// nothing that must stay together may be cut
await still.emulateMedia({ media: 'print', colorScheme: 'dark' });
const paper = await still.evaluate(() => {
  const style = (s) => getComputedStyle(document.querySelector(s));
  return {
    ink: style('body').color, ground: style('body').backgroundColor, menu: style('nav.sheets').display, box: style('.tick input').borderTopStyle,
    cut: ['.step', 'tr', '.care', '.scroll'].filter((s) => style(s).breakInside !== 'avoid'),
    sheet: [...document.querySelectorAll('.sheet + .sheet')].filter((e) => getComputedStyle(e).breakBefore !== 'page').length,
  };
});
assert.deepEqual(paper, { ink: 'rgb(0, 0, 0)', ground: 'rgb(255, 255, 255)', menu: 'none', box: 'solid', cut: [], sheet: 0 });
for (const format of ['A4', 'Letter']) {
  const pdf = (await still.pdf({ format })).toString('latin1');
  const pages = pdf.match(/\/Type \/Page\b/g).length;
  const sheets = await still.locator('.sheet').count();
  assert.ok(pages >= sheets && pages < 4 * sheets, `${sheets} sheets on ${pages} pages of ${format}`);
}
await browser.close();
console.log(`used ${file} at ${moment}`);
