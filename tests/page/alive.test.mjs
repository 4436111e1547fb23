// The page never dies and loses nothing, whatever is pressed in whatever order; and a part that breaks breaks alone.
// WALK_ACTIONS and WALK_SEED make the walk longer or another: WALK_ACTIONS=20000 node --test alive.test.mjs
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after as atEnd, test } from 'node:test';
import { after, done, open, savedText, scenes } from './drive.mjs';
import { randomActions } from './random_actions.mjs';

atEnd(done);

async function removes(page, order) {
  for (const [choose, remove] of order) {
    await page.locator('.board').nth(choose).click();
    const count = await page.locator('.finish').count(), name = await page.locator('.finish .name').nth(
      remove).inputValue();
    await after(page, () => page.locator('[data-spot^=gone]').nth(remove).evaluate((e) => e.click()));
    assert.equal(await page.locator('.finish').count(), count - 1);
    assert.ok(!(await page.locator('.finish .name').evaluateAll((all) => all.map((e) => e.value))).includes(name));
    assert.doesNotMatch(await savedText(page), new RegExp('^name = "' + name + '"', 'm'));
  }
}

test('with the last finish chosen, any finish is removed and the page goes on', async () => {
  const page = await open({ still: true }), text = await savedText(page);
  for (const remove of [0, 1, 2]) {
    await removes(page, [[2, remove], [1, 0]]);
    assert.equal(await page.locator('[data-spot=gone0]').isDisabled(), true);
    await after(page, () => page.click('#undo'));
    await after(page, () => page.click('#undo'));
    assert.equal(await savedText(page), text);
  }
  assert.deepEqual(page.faults, []);
});

test('removing the same finish twice in a hurry takes out one, and a name given meanwhile stays with its finish',
  async () => {
  const page = await open({ still: true });
  await page.evaluate(() => {
    const gone = document.querySelector('[data-spot=gone0]'), name = document.querySelector('[data-spot=name2]');
    gone.click();
    gone.click();
    name.value = 'for the hall';
    name.dispatchEvent(new Event('change'));
  });
  const text = await savedText(page);
  assert.equal(text.match(/^\[\[finish\]\]/gm).length, 2);
  assert.match(text, /^name = "garnet shellac"$[^]*^name = "for the hall"$[^]*waterborne-acrylic/m);
  assert.deepEqual(page.faults, []);
});

test('a part of the page that breaks is told, changes still go in, and Save writes them', async () => {
  const page = await open({ still: true });
  await page.evaluate(() => document.getElementById('boards').remove());
  await after(page, async () => { await page.fill('#title', 'Still here'); await page.keyboard.press('Enter'); });
  assert.match(await page.textContent('#trouble'), /Something went wrong:.*Drawing the boards did not work/);
  assert.match(await savedText(page), /^title = "Still here"$/m);
  // The layers below are drawn all the same.
  await page.locator('[data-spot="band0.1"]').click();
  assert.equal(await page.locator('[data-spot="band0.1"]').getAttribute('aria-expanded'), 'true');
  // What no task catches is shown too, and ends nothing.
  await page.evaluate(() => { setTimeout(() => { throw new Error('out of the blue'); }); });
  for (let i = 0; i < 200 && !/out of the blue/.test(await page.textContent('#trouble'));
    ++i) await new Promise((r) => setTimeout(r, 10));
  assert.match(await page.textContent('#trouble'), /out of the blue/);
  await after(page, async () => { await page.fill('#title', 'And here'); await page.keyboard.press('Enter'); });
  assert.match(await savedText(page), /^title = "And here"$/m);
  assert.ok(page.faults.length > 0, 'a fault leaves no trace in the console');
});

test('a walk of random actions finds no dead page, no lost change and no fault', async () => {
  const actions = Number(process.env.WALK_ACTIONS || 2000), seed = Number(process.env.WALK_SEED || 20260302);
  const scene = (name) => readFileSync(scenes + name, 'utf8');
  const files = { 'shelf-pine.toml': scene('shelf-pine.toml'), 'library-oak.toml': scene('library-oak.toml'),
    'bad.toml': 'format = ', 'none.toml': 'format = 1\n',
    'materials.toml': 'format = 1\n[material.own]\nkind = "film"\nlike = "oil-varnish"\n', 'notes.txt': 'hello' };
  // A new page for each leg, so that long walks find what comes early too; wide and narrow ones in turn. The page works
  // on at rest in every fourth leg, which is shorter.
  for (let from = 0, leg = 0, some = 0; from < actions; from += some, ++leg) {
    const rest = leg % 4 === 0;
    some = Math.min(rest ? 200 : 600, actions - from);
    const page = await open({ still: true, width: leg % 2 ? 390 : 920, height: 520, rest });
    const wrong = await page.evaluate(randomActions, { seed: seed + from, actions: some, files,
      pause: rest ? 220 : 40 });
    assert.deepEqual(wrong, [], 'seed ' + (seed + from));
    assert.deepEqual(page.faults, [], 'seed ' + (seed + from));
    assert.deepEqual(page.requests, []);
    await page.close();
  }
});
