// The user's own board: a photograph of twelve megapixels, a card in it, and nothing that holds up the page meanwhile.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { after as atEnd, test } from 'node:test';
import { after, done, open, task, when } from './drive.mjs';

atEnd(done);

// A photograph made on the spot: a bare maple board with streaks on a blue bench, a white card on it, under a warm
// tint.
const photograph = (page, width, height, card) => page.evaluate(async ([w, h, c]) => {
  const canvas = new OffscreenCanvas(w, h), g = canvas.getContext('2d');
  g.fillStyle = '#2c3e66';
  g.fillRect(0, 0, w, h);
  const streak = (x) => 0.5 + 0.5 * Math.sin(x / 37) * Math.sin(x / 11.3 + 1);
  for (let y = h / 10; y < 0.9 * h; y += 4) {
    const v = streak(y);
    g.fillStyle = `rgb(${Math.round(206 + 14 * v)} ${Math.round(176 + 16 * v)} ${Math.round(138 + 18 * v)})`;
    g.fillRect(w / 12, y, 10 * w / 12, 4);
  }
  g.fillStyle = 'rgb(242 236 224)';
  g.fillRect(...c);
  const bytes = new Uint8Array(await (await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.92 })).arrayBuffer());
  let text = '';
  for (let i = 0; i < bytes.length; i += 32768) text += String.fromCharCode(...bytes.subarray(i, i + 32768));
  return btoa(text);
}, [width, height, card]);

test('a photograph of 12 megapixels is finished and its card stays neutral', async () => {
  const page = await open();
  const card = [1600, 1200, 500, 360];
  const jpeg = Buffer.from(await photograph(page, 4000, 3000, card), 'base64');
  await task(page, 'p-photo');
  await page.setInputFiles('#p-photo input[type=file]', { name: 'board.jpg', mimeType: 'image/jpeg', buffer: jpeg });
  await page.waitForSelector('#shot canvas');
  await page.getByRole('button', { name: 'Finish it' }).click();
  assert.match(await page.textContent('#p-photo [aria-live]'), /where the card is/);
  for (const [i, label] of ['Left', 'Top', 'Width', 'Height'].entries())
    await page.getByLabel(label + ' of the card, pixels').fill(String(card[i] + (i < 2 ? 20 : -40)));
  await page.getByRole('button', { name: 'Finish it' }).click();
  await page.waitForSelector('.photos figure', { timeout: 180000 });
  assert.equal(await page.locator('.photos figure').count(), 4);

  // The card is neutral in every picture, the wood darker under a dye than bare, and the bench as it was.
  const seen = await page.evaluate((c) => [...document.querySelectorAll('.photos canvas')].map((k) => {
    const g = k.getContext('2d'), s = k.width / 4000;
    const mean = (x, y, w, h) => {
      const d = g.getImageData(Math.round(x * s), Math.round(y * s), Math.round(w * s), Math.round(h * s)).data;
      const m = [0, 0, 0];
      for (let i = 0; i < d.length; i += 4) for (let j = 0; j < 3; ++j) m[j] += d[i + j] / (d.length / 4);
      return m;
    };
    return { card: mean(c[0] + 100, c[1] + 80, 300, 200), wood: mean(600, 2000, 600, 400),
      bench: mean(20, 20, 200, 100) };
  }), card);
  for (const s of seen) {
    assert.ok(Math.max(...s.card) - Math.min(...s.card) < 2.5, 'the card is not neutral: ' + s.card);
    assert.ok(Math.abs(s.bench[2] - seen[0].bench[2]) < 2, 'the bench changed');
  }
  assert.ok(seen[1].wood[1] < seen[0].wood[1] - 20, 'the dyed wood is not darker: ' + seen[1].wood + ' / ' +
    seen[0].wood);
  assert.deepEqual(await page.locator('.photos figcaption').allTextContents(), ['bare, as photographed',
    'dye, shellac, waterborne, finished, daylight', 'garnet shellac, finished, daylight', 'clear, finished, daylight']);
  // Every look is saved as large as the photograph; a phone's camera is asked for where it is wanted.
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save in full size: garnet shellac' }).click();
  const saved = await saving;
  assert.match(saved.suggestedFilename(), /-photo-garnet-shellac-finished-daylight\.png$/);
  const bytes = await readFile(await saved.path());
  assert.deepEqual([bytes.readUInt32BE(16), bytes.readUInt32BE(20)], [4000, 3000]);
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Take a photograph' }).click();
  await chooser;
  assert.equal(await page.getAttribute('#p-photo input[type=file]', 'capture'), 'environment');
  await page.locator('input[name=light]').nth(1).check({ force: true });
  await page.waitForSelector('#p-photo .old');
  await page.locator('input[name=light]').first().check({ force: true });
  await page.locator('#p-photo .old').waitFor({ state: 'detached' });
  assert.deepEqual(page.requests, []);
  assert.deepEqual(page.faults, []);
});

test('what is no picture, and a card that is none, are refused in words', async () => {
  const page = await open();
  await task(page, 'p-photo');
  await page.setInputFiles('#p-photo input[type=file]', { name: 'board.heic', mimeType: 'image/heic',
    buffer: Buffer.from('not a picture') });
  await page.waitForSelector('text=is no picture that this browser opens');
  const jpeg = Buffer.from(await photograph(page, 800, 600, [300, 200, 120, 90]), 'base64');
  await page.setInputFiles('#p-photo input[type=file]', { name: 'board.jpg', mimeType: 'image/jpeg', buffer: jpeg });
  await page.waitForSelector('#shot canvas');
  for (const [label, v] of [['Left', 10], ['Top', 10], ['Width', 5], ['Height', 5]]) await page.getByLabel(label +
    ' of the card, pixels').fill(String(v));
  await page.getByRole('button', { name: 'Finish it' }).click();
  await page.waitForSelector('#p-photo .problems li');
  assert.match(await page.textContent('#p-photo .problems'), /card/);
  // A second picture that is none leaves the first at hand.
  await page.setInputFiles('#p-photo input[type=file]', { name: 'next.jpg', mimeType: 'image/jpeg',
    buffer: Buffer.from('hello') });
  await page.waitForSelector('text=next.jpg is no picture that this browser opens; ' +
    'a JPEG or PNG is needed. The picture before it stays.');
  for (const [label, v] of [['Left', '310'], ['Top', '210'], ['Width', '1OO'], ['Height', '70']]) await page.getByLabel(
    label + ' of the card, pixels').fill(v);
  await page.getByRole('button', { name: 'Finish it' }).click();
  assert.match(await page.textContent('#p-photo [aria-live]'),
    /Width of the card, pixels: “1OO” is not one clear number/);
  await page.getByLabel('Width of the card, pixels').fill('100');
  await page.getByRole('button', { name: 'Finish it' }).click();
  await page.waitForSelector('.photos figure', { timeout: 60000 });
  assert.deepEqual(page.faults, []);
});

test('a second card, a part to finish and a rectangle to square up are drawn or typed', async () => {
  const page = await open();
  await task(page, 'p-photo');
  const jpeg = Buffer.from(await photograph(page, 800, 600, [300, 200, 120, 90]), 'base64');
  await page.setInputFiles('#p-photo input[type=file]', { name: 'board.jpg', mimeType: 'image/jpeg', buffer: jpeg });
  await page.waitForSelector('#shot canvas');
  for (const [label, v] of [['Left', 310], ['Top', 210], ['Width', 100], ['Height', 70]])
    await page.getByLabel(label + ' of the card, pixels').fill(String(v));
  const canvas = page.locator('#shot canvas');
  const to = async (x, y) => {  // the page moves as fields are added and results come
    await canvas.scrollIntoViewIfNeeded();
    const shown = await canvas.boundingBox();
    return [shown.x + x * shown.width / 800, shown.y + y * shown.height / 600];
  };
  const touch = async (x, y) => page.mouse.click(...await to(x, y));
  const mark = (what) => page.getByLabel('You mark').selectOption(what);
  const part = page.getByLabel('Part 1 to finish, its corners in pixels', { exact: true });
  const drag = async (x, y, u, v) => {
    await page.mouse.move(...await to(x, y));
    await page.mouse.down();
    await page.mouse.move(...await to((x + u) / 2, (y + v) / 2));
    await page.mouse.move(...await to(u, v));
    await page.mouse.up();
  };
  // One frame makes one part; touches make another, corner after corner.
  await mark('a part to finish');
  await drag(100, 350, 300, 500);
  const near = (text, due) => text.split(/[ ,]/).forEach((v, i) => assert.ok(Math.abs(v - due[i]) <= 2, text));
  near(await part.inputValue(), [100, 350, 300, 350, 300, 500, 100, 500]);
  for (const at of [[500, 350], [640, 350], [640, 500]]) await touch(...at);
  near(await page.getByLabel('Part 2 to finish, its corners in pixels', { exact: true }).inputValue(),
    [500, 350, 640, 350, 640, 500]);
  assert.equal(await page.locator('#shot polygon.part.inner').count(), 2);
  await page.getByRole('button', { name: 'Take away: Part 1' }).click();
  near(await part.inputValue(), [500, 350, 640, 350, 640, 500]);
  await part.fill('100,350 300,350 300');
  await page.getByRole('button', { name: 'Finish it' }).click();
  assert.match(await page.textContent('#p-photo [aria-live]'), /Part 1 .*“100,350 300,350 300” is not clear/);
  await part.fill('100,350 300,350 300,500 100,500');
  await mark('a second card');
  await drag(320, 220, 400, 270);
  near(await page.getByLabel('A second card, its corners in pixels', { exact: true }).inputValue(),
    [320, 220, 400, 220, 400, 270, 320, 270]);
  await page.getByRole('button', { name: 'Finish it' }).click();
  await page.waitForSelector('.photos figure:nth-child(4)', { timeout: 60000 });
  const green = (x, y) => page.evaluate(([px, py]) => [...document.querySelectorAll('.photos canvas')].slice(0, 2).map(
    (k) => k.getContext('2d').getImageData(px, py, 20, 20).data.reduce((sum, v, i) => sum + (i % 4 === 1 ? v : 0), 0) /
      400), [x, y]);
  const [bare, dyed] = await green(180, 400), [beside, still] = await green(560, 400);
  assert.ok(dyed < bare - 20, `the part is not dyed: ${bare} ${dyed}`);
  assert.equal(still, beside);
  // Squared up, the rectangle alone is shown.
  await page.getByRole('button', { name: 'Take away: Part 1' }).click();
  await mark('a rectangle to square up');
  await page.getByLabel('A second lamp').selectOption('a white LED');
  for (const at of [[100, 100], [700, 100], [700, 500], [100, 500]]) await touch(...at);
  near(await page.getByLabel(/^A rectangle to square up/).inputValue(), [100, 100, 700, 100, 700, 500, 100, 500]);
  await page.getByRole('button', { name: 'Finish it' }).click();
  const width = () => page.evaluate(() => document.querySelectorAll('.photos figure').length === 4 &&
    document.querySelector('.photos canvas').width);
  for (let tries = 0; tries < 60 && !(Math.abs(await width() - 600) < 8); ++tries) await page.waitForTimeout(200);
  assert.ok(Math.abs(await width() - 600) < 8, 'not squared up: ' + await width());
  // Shown in another light than the photograph's, two lamps cannot be told: that is said.
  const told = () => page.textContent('#p-photo [aria-live]');
  assert.doesNotMatch(await told(), /in another light/);
  await after(page, () => page.locator('input[name=light][value=A]').check({ force: true }));
  await page.getByRole('button', { name: 'Finish it' }).click();
  await when(page, () => /The second lamp makes no difference here: the board is shown in another light than the /.test(
    document.querySelector('#p-photo [aria-live]').textContent));
  assert.deepEqual(page.faults, []);
});

test('the client’s sheet and the bench card come up to be printed, each a page of its own without script', async () => {
  const page = await open();
  await task(page, 'p-paper');
  await page.getByRole('button', { name: 'Client’s sheet' }).click();
  await page.waitForSelector('#paper:not([hidden])', { timeout: 180000 });
  const sheet = page.frameLocator('#sheet');
  await sheet.locator('image').first().waitFor();
  assert.match(await sheet.locator('body').textContent(), /garnet shellac/);
  assert.equal(await sheet.locator('script').count(), 0);
  assert.ok(await sheet.locator('image').count() >= 4);
  assert.ok(await sheet.locator('image').evaluateAll((all) =>
    all.every((i) => i.getAttribute('href').startsWith('data:image/png;base64,'))));
  // It lies in the pane, as wide as it, and goes out as a picture of the paper's size that says it is sRGB.
  const box = await page.locator('#sheet').boundingBox(), pane = await page.locator('#pane').boundingBox();
  assert.ok(box.width > 0.8 * pane.width && box.x + box.width <= pane.x + pane.width, JSON.stringify([box, pane]));
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as picture' }).click();
  const picture = await readFile(await (await saving).path());
  assert.deepEqual([picture.readUInt32BE(16), picture.readUInt32BE(20)], [1654, 2339]);  // A4 at 200 dpi
  assert.deepEqual([picture.toString('latin1', 37, 41), picture.toString('latin1', 50, 54), picture.readUInt32BE(54)],
    ['sRGB', 'pHYs', 7874]);
  await page.locator('#p-paper').getByRole('button', { name: 'Bench card' }).click();
  await sheet.locator('table').first().waitFor();
  assert.match(await page.frameLocator('#sheet').locator('body').textContent(), /Orange shellac/);
  assert.deepEqual(page.requests, []);
});

test('the tools for a photograph show only once there is one', async () => {
  const page = await open();
  await task(page, 'p-photo');
  assert.equal(await page.getByRole('button', { name: 'Finish it' }).isVisible(), false);
  assert.equal(await page.getByLabel('Left of the card, pixels').isVisible(), false);
  const jpeg = Buffer.from(await photograph(page, 400, 300, [150, 100, 60, 45]), 'base64');
  await page.setInputFiles('#p-photo input[type=file]', { name: 'board.jpg', mimeType: 'image/jpeg', buffer: jpeg });
  await page.waitForSelector('#shot canvas');
  assert.equal(await page.getByRole('button', { name: 'Finish it' }).isVisible(), true);
  // Nothing that is hidden is shown by another rule of the style.
  assert.deepEqual(await page.evaluate(() => [...document.querySelectorAll('[hidden]')].filter((e) =>
    e.getClientRects().length).map((e) => e.outerHTML.slice(0, 80))), []);
});
