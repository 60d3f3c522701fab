// Holds what `tamis build --to jsonld,ics,json` wrote to outside readers. The recipes are
// expanded by jsonld.js, which must drop no term, and every type and property must be one of
// schema.org's as schema-dts has them. The calendars are parsed by ical.js: no line is longer
// than 75 octets, every event has an alarm, and each cook has the events that the data has.
// Called with the folders that hold them.
import { createRequire } from 'node:module';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

const require = createRequire(import.meta.url);
const jsonld = require('jsonld');
const ICAL = require('ical.js').default ?? require('ical.js');
const vocabulary = readFileSync(join(import.meta.dirname, 'node_modules/schema-dts/dist/schema.d.ts'), 'utf8');
const known = (term) => vocabulary.includes(`"${term}"?:`) || vocabulary.includes(`"@type": "${term}"`);

let bad = 0, recipes = 0, events = 0, calendars = 0;
const fault = (...words) => { bad++; console.log(...words); };

// The context of schema.org as far as it matters here: every term is of its vocabulary.
const documentLoader = async (url) => {
  if (!/^https?:\/\/schema\.org\/?$/.test(url)) throw new Error(`no context is at ${url}`);
  return { contextUrl: null, documentUrl: url, document: { '@context': { '@vocab': 'https://schema.org/', url: { '@type': '@id' } } } };
};

const termsOf = (node, terms = []) => {
  if (Array.isArray(node)) node.forEach((n) => termsOf(n, terms));
  else if (node && typeof node === 'object') {
    for (const [key, value] of Object.entries(node)) {
      if (!key.startsWith('@')) terms.push(key);
      if (key === '@type') [value].flat().forEach((t) => terms.push(t));
      termsOf(value, terms);
    }
  }
  return terms;
};

for (const dir of process.argv.slice(2)) {
  const files = readdirSync(dir);
  for (const file of files.filter((f) => f.endsWith('.jsonld'))) {
    const text = JSON.parse(readFileSync(join(dir, file), 'utf8'));
    const before = termsOf(text['@graph']);
    for (const t of new Set(before)) if (!known(t)) fault(file, `schema.org has no ${t}`);
    const wide = await jsonld.expand(text, { documentLoader, safe: true });
    const after = termsOf(wide).map((t) => t.replace('https://schema.org/', ''));
    if (before.length !== after.length || before.sort().join() !== after.sort().join()) fault(file, `${before.length} terms, ${after.length} when it is expanded`);
    recipes += text['@graph'].length;
  }
  for (const file of files.filter((f) => f.endsWith('.ics'))) {
    calendars++;
    const raw = readFileSync(join(dir, file));
    for (const line of raw.toString('utf8').split('\r\n')) if (Buffer.byteLength(line) > 75) fault(file, 'a line is too long:', line);
    if (/[^\r]\n/.test(raw.toString('utf8'))) fault(file, 'a line does not end in CRLF');
    const calendar = new ICAL.Component(ICAL.parse(raw.toString('utf8')));
    const cook = calendar.getFirstPropertyValue('name').split(', ').pop();
    const base = files.filter((f) => f.endsWith('.json') && file.startsWith(f.slice(0, -5) + '-')).sort((a, b) => b.length - a.length)[0];
    const data = JSON.parse(readFileSync(join(dir, base), 'utf8'));
    const want = data.events.filter((e) => e.kind === 'serve' || (e.who ?? []).includes(cook));
    const have = calendar.getAllSubcomponents('vevent').map((c) => new ICAL.Event(c));
    events += have.length;
    if (want.length !== have.length) fault(file, `${want.length} events in the data, ${have.length} in the calendar`);
    want.forEach((e, i) => {
      const start = have[i].startDate.toJSDate().getTime();
      const due = /[Z+]|-\d\d:\d\d$/.test(e.start.slice(10)) ? Date.parse(e.start) : have[i].startDate.zone.tzid === 'floating' ? Date.parse(e.start) : NaN;
      if (start !== due) fault(file, e.words, have[i].startDate.toString(), e.start);
      if (!have[i].summary.includes(e.words)) fault(file, `"${have[i].summary}" is not "${e.words}"`);
      const alarm = have[i].component.getFirstSubcomponent('valarm');
      if (!alarm || alarm.getFirstPropertyValue('action') !== 'DISPLAY') fault(file, e.words, 'has no alarm');
      if (have[i].endDate && have[i].endDate.compare(have[i].startDate) < 0) fault(file, e.words, 'ends before it begins');
    });
    const uids = new Set(have.map((e) => e.uid));
    if (uids.size !== have.length) fault(file, 'two events are one by their UID');
  }
}
console.log(`${recipes} recipes, ${events} events in ${calendars} calendars, ${bad} faults`);
process.exit(bad || !recipes || !events ? 1 : 0);
