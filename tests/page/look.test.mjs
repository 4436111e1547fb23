// Looking: boards large and neutral, the mode for a client, pictures out, and no figures unless asked for.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after as atEnd, test } from 'node:test';
import { crc32, inflateSync } from 'node:zlib';
import { after, ask, done, figures, open, openScene, refined, task, when } from './drive.mjs';

atEnd(done);

const how = (page, name) => after(page, () => page.locator(`input[name=how][value=${name}]`).click({ force: true }));
const light = (page, id) => after(page, () => page.locator(`input[name=light][value="${id}"]`).check({ force: true }));
const mean = (page, i) => page.locator('.board canvas').nth(i).evaluate((k) => {
  const d = k.getContext('2d').getImageData(0, 0, k.width, k.height).data;
  let sum = 0;
  for (let j = 0; j < d.length; j += 4) sum += d[j] + d[j + 1] + d[j + 2];
  return sum / (d.length / 4) / 3;
});

// L* of a grey of the screen (IEC 61966-2-1 for the curve, CIE 15 for L*).
const lightness = (code) => {
  const v = code / 255, y = v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  return y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : 24389 / 27 * y;
};

test('boards take most of the screen and stand on a neutral grey of L* 50 to 60, in light rooms and dark ones',
  async () => {
  const page = await open({ width: 1440, height: 900, still: true });
  for (const dark of [false, true]) {
    await page.emulateMedia({ colorScheme: dark ? 'dark' : 'light' });
    const high = await page.locator('.board canvas').first().evaluate((c) => c.clientHeight);
    assert.ok(high > 0.6 * 900, String(high));
    // The first control of a layer is on the first screen.
    const band = await page.locator('.finish.chosen .turn').first().boundingBox();
    assert.ok(band && band.y + band.height < 900, JSON.stringify(band));
    for (const look of [false, true]) {
      if (look) await after(page, () => page.click('#look-go'));
      const [r, g, b] = await page.locator('#wall').evaluate((e) =>
        getComputedStyle(e).backgroundColor.match(/\d+/g).map(Number));
      assert.ok(r === g && g === b && lightness(r) >= 50 && lightness(r) <= 60, `${r} ${g} ${b}`);
    }
    await after(page, () => page.click('#look-end'));
  }
});

test('at rest boards have a pixel for every pixel of the screen, and wood stands as large as the mark says',
  async () => {
  const page = await open({ width: 1440, height: 900, still: true, rest: true });
  await refined(page);
  const sizes = () => page.$$eval('.board canvas', (all) => all.map((c) => [c.width / c.clientWidth,
    c.height / c.clientHeight]).flat());
  for (const s of await sizes()) assert.ok(Math.abs(s - 1) < 0.01, String(s));
  const mark = () => page.locator('.mark').evaluate((m) => parseInt(m.textContent, 10) / m.firstChild.clientWidth);
  await after(page, () => page.getByRole('button', { name: 'True size' }).click());
  assert.ok(Math.abs(await mark() - 25.4 / 96) < 0.02, String(await mark()));  // a CSS pixel is 1/96 inch
  await after(page, () => page.getByRole('button', { name: 'Show wood larger' }).click());
  assert.ok(Math.abs(await mark() - 25.4 / 192) < 0.01, String(await mark()));
  await refined(page);
  for (const s of await sizes()) assert.ok(Math.abs(s - 1) < 0.01, String(s));
  assert.deepEqual(page.faults, []);
});

test('a change is seen at once in nearly its color, and at rest in the very pixels that would have taken longer',
  async () => {
  const seen = [];
  for (const rest of [true, false]) {
    const page = await open({ width: 900, height: 600, still: true, rest });
    await page.evaluate(() => {
      window.firsts = 0;
      new MutationObserver((all) => { window.firsts += all.filter((m) => m.target.dataset.first).length; }).observe(
        document.getElementById('boards'), { subtree: true, attributeFilter: ['data-first'] });
    });
    const coats = page.locator('.finish.chosen').getByLabel('Coats, typed').locator('visible=true').first();
    for (const n of ['3', '4']) {  // the first one also moves what stands below the boards
      await coats.fill(n);
      await after(page, () => coats.press('Enter'));
    }
    const at = await mean(page, 0);
    if (rest) await refined(page);
    assert.equal(await page.evaluate(() => window.firsts > 0), rest);
    assert.equal(await page.locator('.board canvas[data-first]').count(), 0);
    assert.ok(Math.abs(await mean(page, 0) - at) < 1.5, `${at} ${await mean(page, 0)}`);
    seen.push(await page.$$eval('.board canvas', (all) => all.map((c) =>
      c.getContext('2d').getImageData(0, 0, c.width, c.height).data.join())));
    assert.deepEqual(page.faults, []);
  }
  assert.ok(seen[0].length === 3 && seen[0].every((p, i) => p === seen[1][i]), 'the pixels at rest are others');
});

test('Look shows boards and nothing of the work; light is one tap; Escape leads back', async () => {
  const page = await open({ still: true });
  await after(page, () => page.keyboard.press('Alt+l'));
  assert.equal(await page.locator('#pane').isVisible() && await page.locator('#pane').evaluate((e) => !e.inert), false);
  const words = await page.locator('#wall').innerText();
  assert.doesNotMatch(words, /ΔE|Lab|#[0-9a-f]{6}|µm|g\/m²|lb/);
  const before = await mean(page, 0);
  await light(page, 'A');
  assert.notEqual(await mean(page, 0), before);
  await after(page, () => page.locator('input[name=stage][value=bare]').check({ force: true }));
  assert.ok(Math.abs(await mean(page, 0) - await mean(page, 2)) < 0.5);  // bare, all are one board
  await after(page, () => page.keyboard.press('Escape'));
  assert.equal(await page.locator('body.looking').count(), 0);
  assert.equal(await page.evaluate(() => document.activeElement.id), 'look-go');
  assert.equal(await page.locator('#pane').evaluate((e) => e.inert), false);
  assert.deepEqual(page.faults, []);
});

test('two boards lie under one divider on one log, before and after is the same board, and holding shows it bare',
  async () => {
  const page = await open({ still: true });
  await after(page, () => page.click('#look-go'));
  await how(page, 'divider');
  const boxes = await page.$$eval('.board canvas', (all) => all.map((c) => { const r = c.getBoundingClientRect();
    return [r.left, r.top, r.width, r.height].map(Math.round).join(); }));
  assert.equal(boxes.length, 2);
  assert.equal(boxes[0], boxes[1]);
  assert.deepEqual(await page.locator('.board .name').allTextContents(), ['dye, shellac, waterborne',
    'clear']);
  await after(page, () => page.getByLabel('Right', { exact: true }).selectOption({ label: 'garnet shellac' }));
  assert.equal(await page.locator('.board .name').nth(1).textContent(), 'garnet shellac');
  const slider = page.locator('#divider input');
  await slider.focus();
  await page.keyboard.press('Home');
  assert.equal(await page.locator('#wall').evaluate((e) => e.style.getPropertyValue('--at')), '0%');
  const r = await page.locator('.board canvas').first().boundingBox();
  await page.mouse.move(r.x + r.width / 4, r.y + r.height / 2);
  await page.mouse.down();
  await page.mouse.move(r.x + r.width * 3 / 4, r.y + r.height / 2);
  await page.mouse.up();
  assert.equal(await slider.inputValue(), '75');
  await how(page, 'before');
  assert.deepEqual(await page.locator('.board .name').allTextContents(), ['bare wood', 'dye, shellac, waterborne']);
  assert.ok(await mean(page, 0) > await mean(page, 1) + 20);
  await how(page, 'side');
  const finished = await mean(page, 0);
  const s = await page.locator('.board canvas').first().boundingBox();
  await page.mouse.move(s.x + 40, s.y + 40);
  await after(page, () => page.mouse.down());
  assert.ok(await mean(page, 0) > finished + 20, 'holding does not show bare wood');
  await after(page, () => page.mouse.up());
  assert.ok(Math.abs(await mean(page, 0) - finished) < 2);
  assert.deepEqual(page.faults, []);
});

test('on a phone one board is large, the next is a swipe away, and its layers come below', async () => {
  const page = await open({ width: 390, height: 844, still: true });
  const box = await page.locator('.board canvas').first().boundingBox();
  assert.ok(box.width > 330 && box.height > 280, JSON.stringify(box));
  await page.locator('#boards').evaluate((b) => { b.scrollTo({ left: b.clientWidth * 0.95 }); });
  for (let i = 0; i < 200 && !(await page.locator('.finish').nth(1).isVisible()); ++i)
    await new Promise((r) => setTimeout(r, 20));
  assert.equal(await page.locator('.finish.chosen .name').inputValue(), 'garnet shellac');
  const under = await page.locator('#under').boundingBox();
  assert.ok(under.y + under.height > 843 && await page.locator('#light').isVisible());
  assert.deepEqual(page.faults, []);
});

test('figures and ids are shown to nobody who did not ask', async () => {
  const page = await open({ still: true, rest: true });
  const library = await ask(page, { do: 'materials' });
  const ids = Object.values(library).flat().map((m) => m.id || m).filter((id) => /^[a-z0-9]+(-[a-z0-9]+)+$/.test(id));
  assert.ok(ids.length > 20);
  await page.waitForSelector('#p-sure h3', { state: 'attached', timeout: 60000 });
  await task(page, 'p-coats');
  await page.getByRole('button', { name: 'Show 0 to 6 coats' }).click();
  await page.waitForSelector('#p-coats table');
  await task(page, 'p-amounts');
  await page.getByRole('button', { name: 'Work out the amounts' }).click();
  await page.waitForSelector('#p-amounts table');
  let all = '';
  for (const id of ['layers', 'p-target', 'p-coats', 'p-match', 'p-boards', 'p-amounts', 'p-photo', 'p-paper', 'p-sure',
    'p-cautions']) {
    await task(page, id);
    const words = await page.locator('body').innerText();
    assert.doesNotMatch(words, /±\d|mineral-spirits/, id);
    assert.doesNotMatch(words, /\bLab\b|L\* |#[0-9a-f]{6}/, id);
    if (id !== 'p-amounts') assert.doesNotMatch(words, /ΔE/, id);  // what rounding to a scale changes is told there
    assert.doesNotMatch(words, /\b1 (steps|coats)\b/, id);
    for (const raw of ids) assert.ok(!new RegExp('(^|[^a-z-])' + raw + '([^a-z-]|$)').test(words), id + ': ' + raw);
    all += words;
  }
  assert.match(all, /Boards may differ (hardly|a little|plainly|a lot), mostly/);
  await figures(page);
  await task(page, 'layers');
  assert.match(await page.locator('.finish.chosen').innerText(), /9 of 10 boards within ΔE [0-9.]+[^]*L [0-9.]+ /);
});

// The chunks of a PNG: [type, data], each with its sum checked (ISO/IEC 15948, 5.3).
function chunks(png) {
  const out = [];
  for (let at = 8; at < png.length;) {
    const size = png.readUInt32BE(at), type = png.toString('latin1', at + 4, at + 8);
    if (crc32) assert.equal(png.readUInt32BE(at + 8 + size), crc32(png.subarray(at + 4, at + 8 + size)), type);
    out.push([type, png.subarray(at + 8, at + 8 + size)]);
    at += 12 + size;
  }
  return out;
}

test('the wall and one board go out as PNG pictures that say they are sRGB', async () => {
  const page = await open({ still: true, rest: true });
  await task(page, 'p-paper');
  for (const [what, boards] of [['wall', 3], ['board', 1]]) {
    const [download] = await Promise.all([page.waitForEvent('download', { timeout: 90000 }),
      page.click(`[data-picture=${what}]`)]);
    assert.equal(download.suggestedFilename(), `a-job-${what}.png`);
    const all = chunks(readFileSync(await download.path()));
    assert.deepEqual(all.slice(0, 2).map(([type]) => type), ['IHDR', 'sRGB']);
    assert.deepEqual([...all[1][1]], [0]);
    assert.equal(all.at(-1)[0], 'IEND');
    const wide = await page.locator('.board canvas').first().evaluate((c) => c.width);
    assert.equal(all[0][1].readUInt32BE(0), boards * wide + (boards + 1) * 16);
    assert.ok(inflateSync(Buffer.concat(all.filter(([type]) => type === 'IDAT').map(([, d]) => d))).length > 1000);
  }
  assert.deepEqual(page.requests, []);
});

test('Ctrl P brings the client’s sheet, printed alone on one page; paper without it shows boards and layers alone',
  async () => {
  const page = await open({ still: true });
  // Pages of a PDF, each with its size in points.
  const pages = async () => [...(await page.pdf({ preferCSSPageSize: true, printBackground: true })).toString('latin1')
    .matchAll(/\/Type \/Page\n[^]*?\/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]/g)].map((m) => m.slice(1).map(Number));
  await page.emulateMedia({ media: 'print' });
  assert.equal(await page.locator('.finish').nth(2).isVisible(), true);
  for (const id of ['#tasks', '#under', '#save']) assert.equal(await page.locator(id).isVisible(), false, id);
  await page.emulateMedia({ media: null });
  const near = ([[wide, high], ...more], due) => {
    assert.deepEqual(more, []);
    assert.ok(Math.abs(wide - due[0]) < 1 && Math.abs(high - due[1]) < 1, `${wide} ${high}`);
  };
  for (const [paper, size] of [['a4', [595.3, 841.9]], ['letter', [612, 792]]]) {
    await task(page, 'p-paper');
    await page.locator('#p-paper').getByLabel('Paper', { exact: true }).selectOption(paper);
    const before = await page.locator('#sheet').getAttribute('srcdoc');
    await page.keyboard.press('Control+p');
    await when(page, (b) => document.getElementById('sheet').srcdoc !== b, before || '');
    await page.frameLocator('#sheet').locator('image').first().waitFor();
    near(await pages(), size);
  }
  // The bench card is a page too; with another task in sight the boards are printed.
  await page.locator('#p-paper').getByRole('button', { name: 'Bench card' }).click();
  await page.frameLocator('#sheet').locator('table').first().waitFor();
  near(await pages(), [595.3, 841.9]);
  assert.equal(await page.evaluate(() => document.body.classList.contains('papered')), false);
  await task(page, 'layers');
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  assert.equal(await page.evaluate(() => document.body.classList.contains('papered')), false);
  assert.deepEqual(page.faults, []);
});

test('beside the stages stands why wood looks so', async () => {
  const page = await open({ still: true });
  const why = page.locator('.finish.chosen .why').first(), dye = page.locator('.finish.chosen .why').nth(1);
  // Why dry dye looks dead is offered at every stage of a dyed finish, and once.
  assert.equal(await dye.locator('summary').textContent(), 'Why does dye look dead when dry?');
  assert.equal(await dye.isVisible(), true);
  await after(page, () => page.locator('input[name=stage][value=dry]').check({ force: true }));
  assert.equal(await why.locator('summary').textContent(), 'Why does dye look dead when dry?');
  assert.equal(await dye.isVisible(), false);
  await why.locator('summary').click();
  assert.ok(await why.locator('p').isVisible());
  await after(page, () => openScene(page, 'chest-ash.toml'));
  assert.deepEqual(page.faults, []);
});

test('the Back of the browser leaves Look and not the job; the button leaves nothing behind to go back to',
  async () => {
  const page = await open({ still: true });
  const looking = () => page.evaluate(() => document.body.classList.contains('looking'));
  const held = await page.evaluate(() => history.state);
  for (const leave of [() => page.goBack(), () => page.click('#look-end'), () => page.keyboard.press('Escape')]) {
    await after(page, () => page.click('#look-go'));
    assert.equal(await looking(), true);
    await after(page, leave);
    assert.equal(await looking(), false);
    for (let i = 0; i < 100 && await page.evaluate(() => history.state && history.state.look); ++i)
      await new Promise((r) => setTimeout(r, 20));
    assert.deepEqual(await page.evaluate(() => history.state), held);
    assert.match(await page.title(), /^A job/);
  }
  assert.deepEqual(page.faults, []);
});
