// Uses a built page as a cook would, on the day: the line of now, a timer that
// is started by a tap and outlives a reload, a tick that is kept; and that all
// of it can be read with scripts off.
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

// a timer
const timer = page.locator('.step .timer').first();
const minutes = +(await page.locator('.margin li[data-min]').first().getAttribute('data-min'));
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

// with scripts off
const plain = await browser.newContext({ javaScriptEnabled: false, viewport: { width: 390, height: 800 } });
const still = await plain.newPage();
await still.goto(url);
assert.ok((await still.locator('.margin li[data-min]').first().innerText()).length > 4);
assert.equal(await still.locator('.timer').count(), 0);
await browser.close();
console.log(`used ${file} at ${moment}`);
