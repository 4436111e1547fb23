// The page's words: every language has all of them, they fit, and its numbers have its own decimal sign.
import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { after as atEnd, test } from 'node:test';
import { after, done, figures, open, openScene, savedText, scenes, task } from './drive.mjs';

atEnd(done);

const web = new URL('../../src/page/web/', import.meta.url);
const source = (name) => readFileSync(new URL(name, web), 'utf8');
const scripts = readdirSync(web).filter((n) => /^\d\d-.*\.js$/.test(n)).sort();
const tables = () => new Function(scripts.filter((n) => n < '05').map(source).join('\n') +
  source('05-words.js').split('// The languages on offer')[0] + '; return { english, german, french };')();

// A text written where it is used: t('…'), in one piece or in several.
function written() {
  const piece = "'(?:[^'\\\\\\n]|\\\\.)*'", all = new RegExp('\\bt\\(((?:' + piece + '\\s*\\+?\\s*)+)[,)]', 'g');
  return [...new Set(scripts.filter((n) => n > '1').flatMap((n) => [...source(n).matchAll(all)])
    .filter((m) => !/\+\s*$/.test(m[1])).map((m) => new Function('return ' + m[1])()))];
}
const gaps = (text) => [].concat(text).flatMap((s) => s.match(/\{\w+\}/g) || []).sort().join();

test('every language has every word, with the same gaps to fill', () => {
  const { english, german, french } = tables();
  const keys = [...new Set([...Object.keys(english), ...written()])];
  assert.ok(keys.length > 300, String(keys.length));
  // What stands in the page from the beginning.
  const standing = [...source('page.html').replace(/<script[^]*$/,
    '').matchAll(/>([^<>@]*[a-z]{2}[^<>@]*)<|aria-label="([^"]+)"/g)]
    .map((m) => (m[1] || m[2]).trim()).filter((s) => s !== 'Foretone' && !/JavaScript/.test(s));
  assert.ok(standing.length > 25, String(standing.length));
  for (const [name, table] of Object.entries({ german, french })) {
    assert.deepEqual([...keys, ...standing].filter((k) => table[k] === undefined), [], name);
    for (const key of Object.keys(table)) {
      const from = english[key] === undefined ? key : english[key];
      assert.equal(gaps(table[key]), gaps(from), name + ': ' + key);
      assert.equal(Array.isArray(table[key]), Array.isArray(from), name + ': ' + key);
    }
  }
  // French sets a space that does not break before its marks.
  for (const v of Object.values(french).flat()) assert.doesNotMatch(v, /[^\u00a0][;?!»]|[^\u00a0\d]:(?!\/)/, v);
});

const tabs = ['layers', 'p-target', 'p-coats', 'p-match', 'p-boards', 'p-amounts', 'p-photo', 'p-paper', 'p-sure',
  'p-cautions'];
for (const [locale, hello] of [['de-DE', /^Sichern$/], ['fr-FR', /^Enregistrer$/]])
  test(`in ${locale} nothing runs over at 390 px, and numbers have a comma`, async () => {
    const page = await open({ still: true, locale, width: 390, height: 844 });
    assert.match(await page.textContent('#save'), hello);
    assert.equal(await page.evaluate(() => document.documentElement.lang), locale.slice(0, 2));
    await figures(page);
    await page.evaluate(() => document.querySelectorAll('details').forEach((d) => { d.open = true; }));
    const clipped = () => page.evaluate(() => [...document.querySelectorAll(
      'button:not(.board), .switch span, summary, label, legend, h2, h3')].filter((e) => e.getClientRects().length &&
      getComputedStyle(e).clipPath === 'none' && (e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 1 ||
      e.getBoundingClientRect().right > innerWidth + 1)).map((e) => e.textContent.slice(0, 60)));
    for (const id of tabs) {
      await task(page, id);
      assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), 390, id);
      assert.deepEqual(await clipped(), [], id);
    }
    for (const what of ['#new', '#more']) {
      await page.click(what);
      assert.deepEqual(await clipped(), [], what);
      await page.keyboard.press('Escape');
    }
    await after(page, () => page.click('#look-go'));
    assert.deepEqual(await clipped(), []);
    await page.click('#look-end');

    // A number is shown and taken with a comma, and written into the scene with a point.
    await task(page, 'layers');
    assert.match(await page.locator('.finish.chosen .values').textContent(), /L \d+,\d/);
    const amount = page.locator('.finish.chosen .turn .number').first();
    assert.equal(await amount.inputValue(), '4');
    await amount.fill('4,25');
    await after(page, () => page.keyboard.press('Enter'));
    assert.equal(await amount.inputValue(), '4,25');
    assert.match(await savedText(page), /use = "honey-dye", parts = 4\.25/);
    await amount.fill('1.250');
    await page.keyboard.press('Enter');
    assert.match(await page.locator('.turn .refused:visible').textContent(), /1\.250/);
    assert.deepEqual(page.faults, []);
  });

test('the language is chosen under More and holds; the job is the same in each', async () => {
  const page = await open({ still: true });
  await after(page, () => openScene(page, 'chest-ash.toml'));
  const text = readFileSync(scenes + 'chest-ash.toml', 'utf8');
  await page.click('#more');
  await Promise.all([page.waitForEvent('load'), page.selectOption('#language', 'de')]);
  for (const end = Date.now() + 30000; Date.now() < end && !(await page.evaluate(() => document.body.dataset.ready));)
    await new Promise((r) => setTimeout(r, 20));
  assert.equal(await page.textContent('#save'), 'Sichern');
  assert.equal(await page.inputValue('#title'), 'Blanket chest, ash');
  assert.equal(await savedText(page), text);
  assert.deepEqual(page.faults, []);
});
