// What is typed, undone or opened: nothing given is lost, and what cannot be is said where it was given.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after as atEnd, test } from 'node:test';
import { after, done, figures, open, openScene, savedText, scenes, task, times, when } from './drive.mjs';

atEnd(done);

const parts = (text) => Number(text.match(/use = "honey-dye", parts = ([0-9.]+)/)[1]);
const dye = (page) => page.locator('.finish').first().getByLabel('Honey dye, typed');
const refusal = (page) => page.locator('.finish').first().locator('.refused:visible');
// Types over what stands in a field and does not leave it.
async function type(field, text) {
  await field.focus();
  await field.press('Control+A');
  await field.pressSequentially(text);
}
async function until(page, what, arg) {
  for (const end = Date.now() + 20000; Date.now() < end; await new Promise((r) => setTimeout(r, 10))) if (
    await page.evaluate(what, arg)) return;
  throw new Error('not within 20 s: ' + what);
}
async function saved(page, act) {
  const [download] = await Promise.all([page.waitForEvent('download'), act()]);
  return readFileSync(await download.path(), 'utf8');
}
// Does something and waits until the page has drawn it and does nothing more: whatever begins it begins at once, or
// while it is still drawing.
async function still(page, act) {
  const before = await times(page);
  await act();
  await when(page, (n) => !document.body.dataset.working && Number(document.body.dataset.drawn || 0) > n, before);
}

test('saving, amounts and the bench card take what still stands in the field', async () => {
  const page = await open();
  await type(dye(page), '9');
  assert.equal(parts(await savedText(page)), 9);
  await type(dye(page), '8');
  assert.equal(parts(await saved(page, () => page.keyboard.press('Control+s'))), 8);
  assert.ok(await dye(page).evaluate((e) => e === document.activeElement), 'Ctrl+S takes the field away');
  await type(page.locator('#title'), 'For the hall');
  assert.match(await savedText(page), /^title = "For the hall"$/m);

  const coats = page.locator('.finish').first().getByLabel('Coats, typed').locator('visible=true');
  await page.locator('[data-spot="band0.2"]').click();
  await task(page, 'p-amounts');
  await task(page, 'layers');
  await type(coats, '5');
  await task(page, 'p-amounts');
  await page.getByRole('button', { name: 'Work out the amounts' }).click();
  await page.waitForSelector('#p-amounts table');
  assert.match(await page.locator('#p-amounts tbody').first().textContent(), /5 × brush/);
  await task(page, 'layers');
  await type(coats, '3');
  await task(page, 'p-paper');
  await page.locator('#p-paper').getByRole('button', { name: 'Bench card' }).click();
  await page.waitForSelector('#paper:not([hidden])');
  assert.match(await page.frameLocator('#sheet').locator('body').textContent(), /3\s*(×|coats)/);
  assert.deepEqual(page.faults, []);
});

test('a number is taken with a comma or a point; what is not one clear number is refused in words and stays as it was',
  async () => {
  const page = await open();
  for (const [typed, due] of [['1,5', 1.5], ['2.5', 2.5], ['0,125', 0.125], ['3', 3]]) {
    await type(dye(page), typed);
    assert.equal(parts(await savedText(page)), due, typed);
    assert.equal(await dye(page).inputValue(), String(due));
  }
  for (const typed of ['1.000,5', '1,000', '1 5', 'abc', '-', '']) {
    await type(dye(page), typed);
    if (!typed) await page.keyboard.press('Delete');
    await page.keyboard.press('Tab');
    assert.match(await refusal(page).textContent(),
      typed ? /^Honey dye: “.*” is not one clear number.*It stays 3 parts\.$/
      : /^Honey dye: there is no number\. It stays 3 parts\.$/, typed);
    assert.equal(await dye(page).inputValue(), '3');
  }
  assert.equal(parts(await savedText(page)), 3);
  // Up and down keys step it, as they do a browser's own field of numbers.
  await dye(page).focus();
  await after(page, () => page.keyboard.press('ArrowUp'));
  assert.equal(parts(await savedText(page)), 3.1);

  await task(page, 'p-amounts');
  await page.getByLabel('Area', { exact: true }).fill('2,5');
  await page.getByRole('button', { name: 'Work out the amounts' }).click();
  await page.waitForSelector('#p-amounts caption');
  assert.match(await page.locator('#p-amounts caption').first().textContent(), /, 2\.5 m²$/);
  await page.getByLabel('Area', { exact: true }).fill('1.000,5');
  await page.getByRole('button', { name: 'Work out the amounts' }).click();
  await page.waitForSelector('#p-amounts .problems');
  assert.match(await page.textContent('#p-amounts .problems'), /Area: “1\.000,5” is not one clear number/);

  await figures(page);
  await task(page, 'p-target');
  for (const [i, v] of ['52,5', '12', 'x'].entries()) await page.locator('#p-target .number').nth(i).fill(v);
  await page.locator('#p-target').getByRole('button', { name: 'Use it' }).nth(1).click();
  assert.match(await page.locator('#p-target .refused').textContent(), /^b of the reading: “x”/);
  await page.locator('#p-target .number').nth(2).fill('−3,25');
  await after(page, () => page.locator('#p-target').getByRole('button', { name: 'Use it' }).nth(1).click());
  assert.match(await savedText(page), /lab = \[\s*52\.5, 12, -3\.25\s*\]/);
  // A target that is a reading can be taken away again.
  await after(page, () => page.getByLabel('The target').selectOption({ label: 'no target' }));
  assert.doesNotMatch(await savedText(page), /^\[target\]/m);
  assert.deepEqual(page.faults, []);
});

test('a number out of range goes back, the reason stands beside it, and good changes made with it hold', async () => {
  const page = await open({ width: 360, height: 740 });
  await type(dye(page), '-3');
  await after(page, () => page.keyboard.press('Enter'));
  assert.equal(await refusal(page).textContent(), 'Honey dye: -3 is outside 0.0001 to 10000. It stays 4 parts.');
  assert.equal(await dye(page).inputValue(), '4');
  assert.ok(await refusal(page).evaluate((p) => {
    const r = p.getBoundingClientRect();
    return p.contains(document.elementFromPoint(r.left + r.width / 2, r.top + r.height / 2));
  }), 'the reason cannot be seen');
  assert.equal(await page.isHidden('#trouble'), true);

  // Three changes while the core is busy with another: the middle one cannot be.
  await still(page, () => page.evaluate(() => {
    const give = (label, value) => {
      const field = document.querySelector(`.finish [aria-label="${label}, typed"]`);
      field.value = value;
      field.dispatchEvent(new Event('change'));
    };
    give('Coats', '2');
    give('Honey dye', '6');
    give('Russet dye', '99999');
    give('Water to thin it', '60');
  }));
  const text = await savedText(page);
  assert.equal(parts(text), 6);
  assert.match(text, /"russet-dye", parts = 1 .*"water", parts = 60 /);
  assert.match(await refusal(page).textContent(), /^Russet dye: 99999 is outside/);
  assert.deepEqual(page.faults, []);
});

test('undo and redo wait their turn: none is lost to one under way, and the numbers follow', async () => {
  const page = await open();
  for (const v of ['5', '6', '7', '8']) await after(page, async () =>
    { await type(dye(page), v); await page.keyboard.press('Enter'); });
  await page.locator('#save').focus();
  await still(page, () => page.evaluate(() => {
    for (let i = 0; i < 3; ++i) document.getElementById('undo').click();
  }));
  assert.equal(parts(await savedText(page)), 5);
  await still(page, async () => {
    for (let i = 0; i < 2; ++i) await page.keyboard.press('Control+Shift+Z');
    await page.keyboard.press('Control+y');
  });
  assert.equal(parts(await savedText(page)), 8);
  assert.equal(await page.isDisabled('#redo'), true);
  // A change, and Undo before it is in.
  await still(page, () => page.evaluate(() => {
    const field = document.querySelector('.finish [aria-label="Honey dye, typed"]');
    field.value = '9';
    field.dispatchEvent(new Event('change'));
    document.getElementById('undo').click();
  }));
  assert.equal(parts(await savedText(page)), 8);
  // By keyboard: the slider is moved and put back, and keeps the focus.
  await page.locator('.finish').first().getByLabel('Honey dye', { exact: true }).focus();
  await after(page, () => page.keyboard.press('ArrowRight'));
  await after(page, () => page.keyboard.press('Control+z'));
  assert.equal(await page.evaluate(() => document.activeElement.getAttribute('aria-valuetext')), '8 parts');
  assert.equal(parts(await savedText(page)), 8);
  await still(page, () => page.click('#redo'));
  assert.equal(parts(await savedText(page)), 8.1);
  await after(page, async () => { await type(dye(page), '3'); await page.keyboard.press('Enter'); });
  assert.equal(await page.isDisabled('#redo'), true);
  assert.deepEqual(page.faults, []);
});

test('a file opened by mistake is undone: the job before it comes back, file name and all', async () => {
  const page = await open();
  await after(page, async () => { await type(dye(page), '7'); await page.keyboard.press('Enter'); });
  await page.locator('#save').focus();
  await after(page, () => openScene(page, 'library-oak.toml'));
  assert.match(await page.textContent('#say'), /library-oak\.toml is open; Undo brings back the job before it/);
  assert.equal(await page.locator('.board').count(), 4);
  await after(page, () => page.click('#undo'));
  assert.match(await page.textContent('#say'), /job\.toml is back/);
  assert.equal(parts(await savedText(page)), 7);
  assert.match(await page.textContent('#say'), /^a-job\.toml is saved/);
  assert.equal(await page.locator('.board').count(), 3);
  await after(page, () => page.click('#redo'));
  assert.equal(await savedText(page), readFileSync(scenes + 'library-oak.toml', 'utf8'));
  assert.equal(await page.locator('.board').count(), 4);
  for (const canvas of await page.locator('.board canvas').all()) assert.ok(await canvas.getAttribute('data-key'),
    'a board without wood');
  assert.deepEqual(page.faults, []);
});

test('a scene that is not UTF-8 is refused where it is seen, readings in another encoding are not', async () => {
  const page = await open({ width: 360, height: 740 });
  const before = await savedText(page);
  const give = (name, buffer) => page.setInputFiles('#files',
    [].concat(buffer).map((b, i) => ({ name: [].concat(name)[i], mimeType: 'text/plain', buffer: b })));
  await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
  await give('latin.toml', Buffer.from(
    'format = 1\n# M\xf6bel\n[wood]\nuse = "ash"\n[[finish]]\nname = "a"\n[[finish.step]]\nuse = "tung"\n', 'latin1'));
  await until(page, () => !document.getElementById('trouble').hidden);
  assert.match(await page.textContent('#trouble'), /line 2: invalid utf-8 sequence; save latin\.toml as UTF-8/);
  assert.ok(await page.evaluate(() => {
    const box = document.getElementById('trouble'), r = box.getBoundingClientRect();
    return box.contains(document.elementFromPoint(r.left + r.width / 2, r.top + 20));
  }), 'the reason cannot be seen');
  assert.equal(await savedText(page), before);
  const umlaut = 'format = 1\ntitle = "Möbel ✓"\n[wood]\nreflectance = "ash.csv"\ngeometry = "45/0"\n' +
    '[[finish]]\nname = "a"\n[[finish.step]]\nuse = "tung"\n';
  const readings = 'nm;M\xf6bel\n' + Array.from({ length: 31 },
    (_, i) => `${400 + 10 * i};${(0.3 + 0.01 * i).toFixed(2)}\n`).join('');
  await after(page, () => give(['good.toml', 'ash.csv'], [Buffer.from(umlaut), Buffer.from(readings, 'latin1')]));
  assert.equal(await page.textContent('#trouble'), '');
  assert.equal(await savedText(page), umlaut);
  // Other readings under the same name are other wood, and Undo brings the first back.
  await figures(page);
  const values = () => page.textContent('.finish .values');
  const light = await values();
  await after(page, () => give(['good.toml', 'ash.csv'], [Buffer.from(umlaut),
    Buffer.from(readings.replaceAll(';0.', ';0.0'), 'latin1')]));
  const dark = await values();
  assert.notEqual(dark, light);
  await after(page, () => page.click('#undo'));
  assert.equal(await values(), light);
  assert.deepEqual(page.faults, []);
});

test('notes are kept in the job, lines and all, come back with it, and go when they are emptied', async () => {
  const page = await open({ still: true });
  const before = await savedText(page), notes = page.getByLabel('Notes for this job');
  await notes.fill('No gloss.\nBy "May" \\ June.');
  // Save takes what still stands in the field.
  const text = await savedText(page);
  assert.match(text, /^notes = "No gloss\.\\nBy \\"May\\" \\\\ June\."$/m);
  await after(page, () => page.click('#undo'));
  assert.equal(await notes.inputValue(), '');
  assert.equal(await savedText(page), before);
  await after(page, () => openScene(page, 'noted.toml', text));
  assert.equal(await notes.inputValue(), 'No gloss.\nBy "May" \\ June.');
  await notes.fill('');
  assert.doesNotMatch(await savedText(page), /notes/);
  assert.deepEqual(page.faults, []);
});
