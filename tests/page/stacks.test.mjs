// The stacks: layers are added, moved, timed and mixed, by keyboard too, and every change is told.
import assert from 'node:assert/strict';
import { after as atEnd, test } from 'node:test';
import { after, done, open, openScene, savedText } from './drive.mjs';

atEnd(done);

const film = 'format = 1\ntitle = "T"\n[wood]\nuse = "hard-maple"\n[[finish]]\nname = "a"\n' +
  '[[finish.step]]\nuse = "garnet-shellac"\n[[finish.step]]\nuse = "waterborne-acrylic"\n';
const spot = (page) => page.evaluate(() => document.activeElement.dataset.spot || document.activeElement.tagName);
const said = (page) => page.textContent('#say');

// Until something holds: what is told and where the focus lies follow the drawing.
async function until(check, wanted) {
  let now;
  for (const end = Date.now() + 10000; Date.now() < end; await new Promise((r) => setTimeout(r, 10))) if (
    wanted.test(now = await check())) return;
  assert.match(now, wanted);
}

test('choosing a layer adds nothing until it is said; a dye goes under the film; moving and taking off keep the focus',
  async () => {
  const page = await open({ still: true });
  await after(page, () => openScene(page, 'a.toml', film));
  const finish = page.locator('.finish').first(), choice = finish.getByLabel('Another layer');
  await choice.focus();
  await page.keyboard.type('Honey');
  assert.equal(await choice.evaluate((e) => e.selectedOptions[0].textContent), 'Honey dye');
  assert.equal(await finish.getByLabel('Where it goes').evaluate((e) => e.selectedOptions[0].textContent),
    'on the bare wood');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  assert.equal(await finish.locator('.layer .band').count(), 2);
  await after(page, () => page.keyboard.press('Enter'));
  await until(() => said(page), /^Honey dye is added under Garnet shellac/);
  assert.equal(await spot(page), 'band0.0');
  assert.ok((await savedText(page)).indexOf('honey-dye') < (await savedText(page)).indexOf('garnet-shellac'));

  await finish.locator('[data-spot="up0.0"]').focus();
  await after(page, () => page.keyboard.press('Enter'));
  await until(() => said(page), /^Honey dye is now layer 2 of 3/);
  assert.equal(await spot(page), 'up0.1');
  await after(page, () => page.keyboard.press('Enter'));
  await until(() => said(page), /^Honey dye is now layer 3 of 3/);
  assert.equal(await spot(page), 'band0.2');  // at the top its own button can be pressed no more
  await finish.locator('button[aria-label="Take off this layer"]:visible').focus();
  await after(page, () => page.keyboard.press('Enter'));
  await until(() => said(page), /^Honey dye is taken off/);
  assert.equal(await spot(page), 'band0.1');
  assert.deepEqual(page.faults, []);
});

test('a layer that is no dye goes on top, or where it is said', async () => {
  const page = await open({ still: true });
  await after(page, () => openScene(page, 'a.toml', film));
  const finish = page.locator('.finish').first(), where = finish.getByLabel('Where it goes');
  await finish.getByLabel('Another layer').selectOption('wax/' +
    await finish.locator('optgroup[label=Wax] option').first().evaluate((e) => e.value.slice(4)));
  assert.deepEqual(await where.locator('option').allTextContents(),
    ['on top', 'over 1  Garnet shellac (dewaxed)', 'on the bare wood']);
  assert.equal(await where.inputValue(), '2');
  await finish.getByLabel('Another layer').selectOption('film/orange-shellac');
  await where.selectOption('1');
  await after(page, () => finish.getByRole('button', { name: 'Add this layer' }).click());
  assert.match(await savedText(page), /garnet-shellac[^]*orange-shellac[^]*waterborne-acrylic/);
});

test('the wait between layers stands in the stack and is set in days, and scuffing is ticked', async () => {
  const page = await open({ still: true });
  await after(page, () => openScene(page, 'linseed-then-waterborne.toml'));
  assert.deepEqual(await page.locator('.wait:not([hidden])').allTextContents(),
    ['2 days later', '3 weeks later', '2 days later']);
  const finish = page.locator('.finish').first();
  assert.equal(await finish.locator('.finding.failure').count(), 1);
  await finish.locator('.band').first().click();
  const days = finish.getByLabel('Days after the layer below');
  assert.equal(await days.inputValue(), '2');
  await after(page, async () => { await days.fill('28'); await days.press('Enter'); });
  assert.equal(await finish.locator('.finding.failure').count(), 0);
  assert.equal(await finish.locator('.wait:visible').textContent(), '4 weeks later');
  await after(page, () => finish.getByLabel('Scuff the layer below first').check());
  assert.equal(await finish.locator('.wait:visible').textContent(), '4 weeks later · scuffed first');
  assert.match(await savedText(page), /after_days = 28\n[^\[]*scuff = true/);
  await after(page, async () => { await days.fill(''); await days.press('Enter'); });
  await after(page, () => finish.getByLabel('Scuff the layer below first').uncheck());
  const own = (await savedText(page)).split('[[finish]]')[1];
  assert.doesNotMatch(own, /after_days|scuff/);
  await days.fill('-1');
  await days.press('Enter');
  assert.equal(await days.inputValue(), '');
  assert.equal(await said(page), 'The wait is 0 to 3650 days.');
  assert.doesNotMatch(await savedText(page), /-1/);
});

test('how much goes on wet is told and turned; a dye is mixed in and left out', async () => {
  const page = await open({ still: true });
  const finish = page.locator('.finish').first();
  assert.match(await finish.locator('.layer .sub').last().textContent(), /65 g\/m² wet/);
  await after(page, async () => { await finish.getByLabel('Wet amount, typed').fill('80');
    await page.keyboard.press('Enter'); });
  const mix = finish.getByLabel('Dyes in this mix', { exact: true }),
    change = finish.getByRole('button', { name: 'Change the dyes in this mix' });
  await mix.selectOption({ label: 'mix in Raven dye' });
  await after(page, () => change.click());
  await until(() => said(page), /mixed in/);
  const first = '{ use = "honey-dye", parts = 4 }', raven = '{ use = "raven-dye", parts = 1 }';
  const mixedIn = `mix = [ ${first}, { use = "russet-dye", parts = 1 }, ${raven}, { use = "water", parts = 45 } ]`;
  const saved = await savedText(page);
  assert.ok(saved.includes(mixedIn), saved);
  assert.match(saved.slice(saved.indexOf(mixedIn) + mixedIn.length), /^\n\s*wet_g_per_m2 = 80/);
  await mix.selectOption({ label: 'leave out Russet dye' });
  await after(page, () => change.click());
  const left = await savedText(page);
  assert.ok(left.includes(`mix = [ ${first}, ${raven}, { use = "water", parts = 45 } ]`), left);
  assert.deepEqual(page.faults, []);
});

test('a name that the page made follows the layers; one that was typed, or that came with a file, stays', async () => {
  const page = await open({ still: true });
  await after(page, () => openScene(page, 'a.toml', film.replace('"a"',
    '"Garnet shellac (dewaxed), Waterborne acrylic"')));
  const names = () => page.locator('.board .name').allTextContents(), finish = page.locator('.finish.chosen');
  const topOff = async () => {
    const band = finish.locator('.band').first();
    if (await band.getAttribute('aria-expanded') !== 'true') await band.click();
    await after(page, () => finish.locator('button[aria-label="Take off this layer"]:visible').click());
  };
  await after(page, () => finish.getByRole('button', { name: 'Copy this finish' }).click());
  await until(async () => (await names()).join('; '), /; Garnet shellac \(dewaxed\), Waterborne acrylic 2$/);
  await topOff();
  assert.deepEqual(await names(), ['Garnet shellac (dewaxed), Waterborne acrylic', 'Garnet shellac (dewaxed)']);
  await finish.getByLabel('Another layer').selectOption('film/oil-varnish');
  await after(page, () => finish.getByRole('button', { name: 'Add this layer' }).click());
  assert.match((await names())[1], /^Garnet shellac \(dewaxed\), Oil varnish/);
  await after(page, () => page.click('#undo'));
  assert.equal((await names())[1], 'Garnet shellac (dewaxed)');
  assert.equal(await said(page), '');  // what was said is no longer so
  await finish.locator('.name').fill('Mine');
  await after(page, () => page.keyboard.press('Enter'));
  await finish.getByLabel('Another layer').selectOption('film/waterborne-acrylic');
  await after(page, () => finish.getByRole('button', { name: 'Add this layer' }).click());
  assert.equal((await names())[1], 'Mine');
  assert.deepEqual(page.faults, []);
});
