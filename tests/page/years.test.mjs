// Years on the page: a board as light will have made it, with its range, as the command line tells it.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { after as atEnd, test } from 'node:test';
import { after, done, figures, open, program, savedText } from './drive.mjs';

atEnd(done);

const stops = ['', '1 month', '6 months', '1 year', '5 years', '20 years'];
const age = (page, time) => after(page, () => page.locator('#age').fill(String(stops.indexOf(time))));
const at = (page, i) => page.locator('.board .at').nth(i).textContent();
const color = (page, i) => page.locator('.board').nth(i).evaluate((b) => b.style.getPropertyValue('--color'));
const ranges = async (page, count) => {
  for (let i = 0; i < 1200; ++i) {
    if (await page.locator('.board .range i').count() === count) return;
    await new Promise((r) => setTimeout(r, 50));
  }
  throw new Error('no range was worked out within a minute');
};

test('a slider of years ages the boards where the piece stands, with their range, as preview tells it', async () => {
  const page = await open({ still: true, rest: true });
  assert.equal(await page.locator('#years output').textContent(), 'new');
  assert.equal(await page.locator('#years select').isVisible(), false);
  const fresh = await color(page, 0);
  await age(page, '5 years');
  assert.match(await at(page, 0), /^after 5 years in a room: /);
  await after(page, () => page.locator('#years select').selectOption('window'));
  assert.match(await at(page, 0), /^after 5 years by a window: /);
  assert.notEqual(await color(page, 0), fresh);
  await ranges(page, 3 * 24);
  const line = await page.locator('.finish.chosen .sure').textContent();
  assert.match(line, /^after 5 years by a window: boards may differ .+; (nearly all|most) of it is /);
  assert.doesNotMatch(line, /ΔE/);
  await figures(page);
  const told = (await page.locator('.finish.chosen .sure').textContent()).match(
    /ΔE ([0-9.]+) from new \(alone: wood ([0-9.]+), film ([0-9.]+), dye ([0-9.]+)\)/);
  assert.ok(told, await page.locator('.finish.chosen .sure').textContent());

  const text = await savedText(page);
  assert.match(text, /exposure = "window"/);
  const folder = mkdtempSync(tmpdir() + '/years-');
  writeFileSync(folder + '/job.toml', text.replace(/exposure = "window"/, '$&\nafter = ["5 years"]'));
  const said = JSON.parse(execFileSync(program, ['preview', 'job.toml', '--no-pictures', '--json', '-', '--quiet'],
    { cwd: folder, stdio: ['ignore', 'pipe', 'ignore'], maxBuffer: 1 << 26 }));
  said.finishes.forEach((f, i) => f.aged[0].colors[0].hex && assert.ok(f.aged[0].colors[0].light === 'D65', i));
  for (let i = 0; i < 3; ++i) assert.equal(await color(page, i), said.finishes[i].aged[0].colors[0].hex);
  const { colors, parts_dE00: parts } = said.finishes[0].aged[0];
  assert.deepEqual(told.slice(1).map(Number), [colors[0].from_new_dE00, parts.wood, parts.film, parts.dye].map((v) =>
    Number(v.toFixed(1))));
  assert.deepEqual(page.faults, []);
});

test('Look shows a piece new and aged on one spot; a stage on the way is shown as it is on the bench', async () => {
  const page = await open({ still: true });
  await after(page, () => page.click('#look-go'));
  await age(page, '20 years');
  await after(page, () => page.locator('input[name=how][value=before]').click({ force: true }));
  assert.deepEqual(await page.locator('.board .name').allTextContents(), ['new', 'dye, shellac, waterborne']);
  assert.notEqual(await color(page, 0), await color(page, 1));
  const sizes = await page.$$eval('.board canvas', (all) => all.map((c) => c.clientWidth + 'x' + c.clientHeight));
  assert.equal(sizes[0], sizes[1]);
  await after(page, () => page.locator('input[name=stage][value=bare]').check({ force: true }));
  assert.equal(await page.locator('#years output').textContent(), 'new');
  assert.equal(await page.locator('#years select').isVisible(), false);
  assert.deepEqual(page.faults, []);
});

for (const [width, height, locale] of [[1440, 900, 'en-US'], [390, 844, 'de-DE']])
  test(`at ${width} px the slider of years stays where it is, of one size, while it is pulled`, async () => {
    const page = await open({ still: true, width, height, locale });
    assert.ok(await page.locator('#years .tag').isVisible());
    const box = () => page.locator('#age').boundingBox(), was = await box();
    assert.ok(was.width >= 96, JSON.stringify(was));
    await page.mouse.move(was.x + 8, was.y + was.height / 2);
    await page.mouse.down();
    for (const far of [0.4, 0.9, 0.1]) {
      await after(page, () => page.mouse.move(was.x + far * was.width, was.y + was.height / 2));
      assert.deepEqual(await box(), was);
    }
    await page.mouse.up();
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), width);
  });
