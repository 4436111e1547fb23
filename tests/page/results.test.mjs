// What was worked out holds for one job: it says so when the job has become another, and is that of the light shown.
import assert from 'node:assert/strict';
import { after as atEnd, test } from 'node:test';
import { after, ask, done, figures, open, openScene, savedText, task, when } from './drive.mjs';

atEnd(done);

const press = (page, name) => page.getByRole('button', { name }).click();
const old = (page, id) => page.locator(`#${id} .old`);

test('coats and amounts say when the job has become another, and hold again when it is undone', async () => {
  const page = await open();
  await task(page, 'p-coats');
  await press(page, 'Show 0 to 6 coats');
  await page.waitForSelector('#p-coats table');
  await task(page, 'p-amounts');
  await press(page, 'Work out the amounts');
  await page.waitForSelector('#p-amounts table');
  const card = page.locator('#p-amounts').getByRole('button', { name: 'Bench card' });
  // The light is no matter for either.
  await after(page, () => page.locator('input[name=light]').nth(1).check({ force: true }));
  for (const id of ['p-coats', 'p-amounts']) assert.equal(await old(page, id).count(), 0);
  await after(page, () => page.selectOption('#wood', 'ash'));
  for (const id of ['p-coats', 'p-amounts']) assert.match(await old(page, id).textContent(),
    /for the job as it was: work it out again/);
  assert.equal(await card.isDisabled(), true);
  await after(page, () => page.click('#undo'));
  for (const id of ['p-coats', 'p-amounts']) assert.equal(await old(page, id).count(), 0);
  assert.equal(await card.isDisabled(), false);
  await after(page, () => page.click('#redo'));
  await press(page, 'Work out the amounts');
  await old(page, 'p-amounts').waitFor({ state: 'detached' });
  assert.equal(await card.isDisabled(), false);
  assert.equal(await old(page, 'p-coats').count(), 1);
  assert.deepEqual(page.faults, []);
});

test('how far boards may lie off is told for the light shown, for the finished wood, and again after the file is ' +
  'reopened', async () => {
  const page = await open({ rest: true });
  const text = await savedText(page);
  const preview = JSON.parse((await ask(page, { do: 'preview', text, file: 'job.toml' })).json);
  await figures(page);
  const ends = (light) => preview.finishes.map((f) => f.stages.at(-1).colors.find((c) =>
    c.light === light).range.dE00_90.toFixed(1));
  assert.notDeepEqual(ends('A'), ends('D65'));
  const said = async (like) => {
    for (const end = Date.now() + 120000; Date.now() < end; await new Promise((r) => setTimeout(r, 20))) {
      const all = await page.locator('.finish .sure').allTextContents();
      if (all.every((t) => like.test(t))) return all.map((t) => t.match(like)[1]);
    }
    const all = await page.locator('.finish .sure').allTextContents();
    throw new Error(`not ${like}: ` + [...all, ...page.faults].join('; '));
  };
  const shown = /^9 of 10 boards within ΔE ([0-9.]+) of this color$/;
  assert.deepEqual(await said(shown), ends('D65'));
  await after(page, () => page.locator('input[name=light][value=A]').check({ force: true }));
  assert.deepEqual(await said(shown), ends('A'));
  await after(page, () => page.locator('input[name=stage][value=bare]').check({ force: true }));
  assert.deepEqual(await said(/^Finished: 9 of 10 boards within ΔE ([0-9.]+) of its color$/), ends('A'));
  await after(page, () => page.locator('input[name=stage][value=finished]').check({ force: true }));
  await after(page, () => openScene(page, 'job.toml', text));
  assert.deepEqual(await said(shown), ends('A'));
  // A light that the job does not look in has no figure.
  await after(page, () => openScene(page, 'two.toml', text.replace('lights = ["D65", "A", "LED-4000"]',
    'lights = ["D65", "LED-4000"]')));
  assert.deepEqual(await said(/^How sure: worked out for (.*) only$/), Array(3).fill('daylight, LED'));
  assert.deepEqual(page.faults, []);
});

test('how sure a color is, if it cannot be worked out, is said after a second try, and asked again by the next change',
  async () => {
    const page = await open({ rest: true });
    // Until every finish says, or no longer says, words that begin so.
    const saying = (words, is = true) => when(page, ([begins, meant]) => [...document.querySelectorAll('.finish .sure')]
      .every((e) => e.textContent.startsWith(begins) === meant), [words, is]);
    await saying('How sure', false);
    await page.evaluate(() => {
      const send = Worker.prototype.postMessage;
      window.refused = 0;
      window.refuses = true;
      Worker.prototype.postMessage = function (message, transfer) {
        if (!window.refuses || !message || message.job !== 'ask' || message.request.do !== 'preview')
          return send.call(this, message, transfer || []);
        ++window.refused;
        this.onmessage({ data: { id: message.id, failed: 'no memory is left' } });
      };
    });
    await after(page, () => page.selectOption('#wood', 'ash'));
    await saying('How sure: could not be worked out: no memory is left');
    assert.equal(await page.evaluate(() => window.refused), 2);
    await page.evaluate(() => { window.refuses = false; });
    await after(page, () => page.selectOption('#wood', 'cherry'));
    await saying('How sure', false);
    assert.deepEqual(page.faults, []);
  });
