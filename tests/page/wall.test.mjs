// The wall: what the boards show, how large, and that they stay in sight.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after as atEnd, test } from 'node:test';
import { after, done, open, openScene, refined, savedText, scenes, task } from './drive.mjs';

atEnd(done);
const failing = 'linseed-then-waterborne.toml';
const stage = (page, name) => page.locator(`input[name=stage][value=${name}]`).click({ force: true });
const held = (page) => page.locator('input[name=stage]:checked').evaluateAll((all) => all.map((i) => i.value).join());
const shownOf = (page, i) => page.locator('.board').nth(i).locator('.at').textContent();

test('on a phone a board says that its finish will not hold, and what it shows if there is no such stage', async () => {
  const page = await open({ width: 360, height: 740, still: true });
  await after(page, () => openScene(page, failing));
  const boards = page.locator('.board');
  assert.match(await boards.first().innerText(), /✕ will not hold/);
  assert.doesNotMatch(await boards.first().innerText(), /finished/);  // as the switch says: no need to repeat it
  assert.doesNotMatch(await boards.nth(1).innerText(), /✕/);
  const mark = await boards.first().locator('.bad').boundingBox(), wall = await page.locator('#boards').boundingBox();
  assert.ok(mark.width > 40 && mark.y + mark.height <= wall.y + wall.height && mark.x + mark.width <= 360);
  await after(page, () => openScene(page, 'a.toml', readFileSync(scenes + failing, 'utf8').split('[[finish]]')[0] +
    '[[finish]]\nname = "clear"\n[[finish.step]]\nuse = "waterborne-acrylic"\n'));
  await after(page, () => stage(page, 'damp'));
  assert.match(await boards.first().innerText(), /bare wood/);
});

test('the boards stay in sight of whatever is turned, and cover nothing that has the focus', async () => {
  const page = await open({ still: true });
  await after(page, () => openScene(page, failing));
  await page.locator('.finish.chosen .band').first().click();
  for (const [width, height] of [[720, 500], [360, 740], [1440, 800]]) {
    await after(page, () => page.setViewportSize({ width, height }));
    await page.locator('.finish.chosen .name').first().focus();
    let turned = 0;
    for (let i = 0; i < 24; ++i) {
      await page.keyboard.press(i < 18 ? 'Tab' : 'Shift+Tab');
      const at = await page.evaluate(() => {
        const e = document.activeElement, r = e.getBoundingClientRect(),
          b = document.getElementById('boards').getBoundingClientRect(),
          u = document.getElementById('under').getBoundingClientRect();
        return { wide: innerWidth, beside: r.left >= b.right, foot: u.top, inside:
          document.getElementById('stacks').contains(e), range: e.type === 'range',
          top: r.top, bottom: r.bottom, boards: b.bottom, first: b.top,
          canvas: document.querySelector('.board canvas').clientHeight, high: innerHeight };
      });
      if (!at.inside) continue;
      if (at.range) ++turned;
      assert.ok(at.first >= -1 && at.canvas >= 72, JSON.stringify(at));
      assert.ok(at.bottom <= at.high + 1 && at.top >= -1, JSON.stringify(at));
      assert.ok(at.beside || (at.top >= at.boards - 1 && at.bottom <= at.foot + 1), JSON.stringify(at));
    }
    assert.ok(turned > 1);
  }
});

test('a stage picked on a strip holds until the switch is pressed or the layers change, and the switch says ' +
  'the stage of the board that is chosen', async () => {
  const page = await open({ still: true });
  const strip = page.locator('.finish').first().locator('.strip button');
  assert.equal(await held(page), 'finished');
  await after(page, () => strip.nth(1).click());
  assert.equal(await held(page), 'damp');
  assert.match(await shownOf(page, 0), /^picked: damp/);
  await page.locator('.board').nth(1).click();  // this one was not picked, and others show something else
  assert.equal(await held(page), '');
  await page.locator('.board').nth(0).click();
  await after(page, () => stage(page, 'finished'));
  assert.equal(await held(page), 'finished');
  assert.equal(await shownOf(page, 0), 'finished');

  await after(page, () => strip.last().click());
  assert.match(await shownOf(page, 0), /^picked: finished/);
  const finish = page.locator('.finish').first();
  await finish.getByLabel('Another layer').selectOption(await finish.locator(
    'optgroup[label=Wax] option').first().getAttribute('value'));
  await after(page, () => finish.getByRole('button', { name: 'Add this layer' }).click());
  assert.equal(await held(page), 'finished');
  assert.equal(await shownOf(page, 0), 'finished');
  assert.equal(await strip.last().getAttribute('aria-pressed'), 'true');

  // One coat more makes other stages; a stronger dye does not.
  await after(page, () => strip.nth(3).click());
  await page.locator('[data-spot="band0.0"]').click();
  await after(page, async () => { await finish.getByLabel('Honey dye, typed').fill('6');
    await page.keyboard.press('Enter'); });
  assert.match(await shownOf(page, 0), /^picked: coated/);
  await after(page, async () => { await finish.getByLabel('Coats, typed').locator('visible=true').fill('2');
    await page.keyboard.press('Enter'); });
  assert.equal(await shownOf(page, 0), 'finished');
});

test('wood is drawn as long as it is wide, pixel for pixel, at any width and number of finishes', async () => {
  const full = readFileSync(scenes + 'library-oak.toml', 'utf8').split('[[finish]]');
  const page = await open({ still: true, rest: true });
  for (const [width, height, finishes] of [[1440, 700, 1], [360, 740, 3], [720, 450, 2], [1440, 1000, 4]]) {
    await after(page, () => page.setViewportSize({ width, height }));
    const some = [full[0].replace(/\[target\][^[]*/, ''), ...full.slice(1, 1 + finishes)].join('[[finish]]');
    await after(page, () => openScene(page, 'a.toml', some));
    await refined(page);
    const scales = await page.$$eval('.board canvas', (all) =>
      all.map((c) => [c.width / c.clientWidth, c.height / c.clientHeight]));
    assert.equal(scales.length, finishes);
    for (const [x, y] of scales) {
      assert.ok(Math.abs(x / y - 1) < 0.02, `${width} × ${height}, ${finishes} finishes: ${x} across, ${y} up`);
      assert.ok(x > 0.98, `${width} × ${height}, ${finishes} finishes: enlarged from ${x}`);
    }
  }
});

test('the lights on offer are those of the scene, even while the switch has the focus', async () => {
  const page = await open({ still: true });
  await after(page, () => page.locator('input[name=light][value="LED-4000"]').click({ force: true }));
  await after(page, () => openScene(page, 'a.toml',
    'format = 1\n[look]\nlights = ["F11", "F2"]\n[wood]\nuse = "ash"\n' +
      '[[finish]]\nname = "a"\n[[finish.step]]\nuse = "tung"\n'));
  assert.deepEqual(await page.$$eval('input[name=light]', (all) => all.map((i) => i.value)),
    ['F11', 'F2', 'D65', 'A', 'LED-4000']);
  assert.equal(await page.locator('input[name=light]:checked').inputValue(), 'LED-4000');
  assert.equal(await page.evaluate(() => document.activeElement.value), 'LED-4000');
});

test('a fifth finish on the wall sends the first off, and that is said', async () => {
  const page = await open({ still: true });
  await after(page, () => openScene(page, 'library-oak.toml'));
  const first = await page.locator('.board .name').first().textContent();
  await after(page, () => page.locator('[data-spot=copy1]').evaluate((e) => e.click()));
  // The copy is made first, then shown.
  await page.locator('.board .name').filter({ hasText: new RegExp('^' + first + '$') }).waitFor({ state: 'detached' });
  const told = await page.textContent('#say');
  assert.ok(told.includes(first + ' is off it'), told);
});

test('stages fit their places on the strip, and a name without end does not widen the page', async () => {
  const wide = await open({ still: true });
  const room = await wide.$$eval('.finish.chosen .strip button', (all) =>
    all.map((b) => { const r = document.createRange(); r.selectNodeContents(b.lastChild);
    return b.clientWidth - r.getBoundingClientRect().width; }));
  assert.ok(Math.min(...room) > 1, String(Math.min(...room)));
  const phone = await open({ width: 360, height: 740, still: true, rest: true });
  const text = (await savedText(phone)).replaceAll('"clear"',
    '"' + 'm'.repeat(400) + '"').replaceAll('"garnet shellac"', '"' + 'x y '.repeat(100) + '"');
  await after(phone, () => openScene(phone, 'a.toml', text));
  await phone.locator('.board').nth(2).click();
  const wideAt = () => phone.evaluate(() => document.documentElement.scrollWidth);
  assert.equal(await wideAt(), 360);
  await task(phone, 'p-amounts');
  await phone.getByRole('button', { name: 'Work out the amounts' }).click();
  await phone.waitForSelector('#p-amounts table');
  assert.equal(await wideAt(), 360);
  await task(phone, 'p-coats');
  await phone.getByRole('button', { name: 'Show 0 to 6 coats' }).click();
  await phone.waitForSelector('#p-coats table');
  assert.equal(await wideAt(), 360);
  await task(phone, 'p-sure');
  await phone.waitForSelector('#p-sure h3', { timeout: 60000 });
  assert.equal(await wideAt(), 360);
});
