// Loads each page in headless Chromium and fails on any WCAG 2.2 A or AA
// violation that axe-core finds, in light and in dark.
import { chromium } from 'playwright-core';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';

const require = createRequire(import.meta.url);
const axe = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--disable-quic'],
});
let bad = 0;
for (const file of process.argv.slice(2)) {
  for (const colorScheme of ['light', 'dark']) {
    const page = await browser.newPage({ bypassCSP: true, colorScheme, viewport: { width: 412, height: 900 } });
    await page.goto(pathToFileURL(file).href);
    await page.addScriptTag({ content: axe });
    const { violations } = await page.evaluate(() =>
      window.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }));
    for (const v of violations) {
      bad++;
      console.log(`${file} (${colorScheme}): ${v.id}: ${v.help}`);
      for (const n of v.nodes.slice(0, 3)) console.log('   ' + n.html.slice(0, 160));
    }
    await page.close();
  }
  console.log('seen ' + file);
}
await browser.close();
process.exit(bad ? 1 : 0);
