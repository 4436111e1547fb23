// What boards teach, on the page as on the command line; targets, every choice of a match, and the job in one file.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { after as atEnd, test } from 'node:test';
import { after, done, figures, open, openScene, program, savedText, scenes, task } from './drive.mjs';

atEnd(done);

const folder = mkdtempSync(tmpdir() + '/learn-');
const run = (...args) => JSON.parse(execFileSync(program, [...args, '--json', '-', '--quiet'],
  { cwd: folder, stdio: ['ignore', 'pipe', 'ignore'], maxBuffer: 1 << 26 }));
const colors = (page) => page.$$eval('.board', (all) => all.map((b) => b.style.getPropertyValue('--color')));
const toldBy = (file) => run('preview', file, '--no-pictures').finishes.map((f) => f.stages.at(-1).colors[0].hex);
const given = (page, ...files) => page.setInputFiles('#files', files.map(([name, from]) => ({ name,
  mimeType: /jpg$/.test(name) ? 'image/jpeg' : 'text/plain', buffer: Buffer.isBuffer(from) ? from
    : readFileSync(scenes + from) })));

test('a target is a reading under a light, for an observer; the geometry is chosen; it lies on the boards',
  async () => {
  const page = await open({ still: true });
  await figures(page);
  await task(page, 'p-target');
  const target = page.locator('#p-target');
  for (const [i, v] of ['60', '20', '45'].entries()) await target.locator('.lab').nth(i).fill(v);
  await target.getByLabel('Light', { exact: true }).selectOption('A');
  await target.getByLabel('Observer').first().selectOption('10deg');
  await after(page, () => target.getByRole('button', { name: 'Use it' }).nth(1).click());
  await target.locator('summary').click();
  await after(page, () => target.getByLabel('Read', { exact: true }).selectOption('d/8-included'));
  const text = await savedText(page);
  assert.match(text, /\[target\]\nlab = \[\s*60, 20, 45\s*\]\nlight = "A"\nobserver = "10deg"/);
  assert.match(text, /^geometry = "d\/8-included"$/m);
  writeFileSync(folder + '/target.toml', text);
  // It is said for lamp light alone, so in that light it lies on every board, as the command line has its color.
  assert.equal(await page.locator('.board .laid:visible').count(), 0);
  await after(page, () => page.locator('input[name=light][value=A]').click({ force: true }));
  const laid = await page.$$eval('.board .laid', (all) => all.filter((e) => !e.hidden).map((e) => {
    const r = e.getBoundingClientRect(), b = e.parentElement.querySelector('canvas').getBoundingClientRect();
    return [getComputedStyle(e).backgroundColor, r.left >= b.left && r.right <= b.right && r.top > b.top];
  }));
  const told = run('coats', 'target.toml', '--finish', 'clear', '--step', '1').target.colors[0].hex;
  const rgb = 'rgb(' + [1, 3, 5].map((i) => parseInt(told.slice(i, i + 2), 16)).join(', ') + ')';
  assert.deepEqual(laid, Array(3).fill([rgb, true]));
  // A finish as the target lies on all boards but its own; in Look there is none.
  await after(page, () => page.getByLabel('The target', { exact: true }).selectOption({ label: 'clear' }));
  assert.equal(await page.locator('.board .laid:visible').count(), 2);
  await after(page, () => page.click('#look-go'));
  assert.equal(await page.locator('.board .laid:visible').count(), 0);
  assert.deepEqual(page.faults, []);
});

test('every choice of a match is kept in the job as the command line reads it, and comes back', async () => {
  const page = await open({ still: true });
  await task(page, 'p-match');
  const match = page.locator('#p-match'), room = (name) => match.locator(`[data-room=${name}]`);
  await match.locator('.choices > summary').click();
  await match.locator('input[value=tung]').check();
  await room('sealer').locator('summary').click();
  await room('sealer').getByLabel('In the recipe').selectOption('always');
  await room('sealer').getByLabel('Cut, lb').fill('1 1,5');
  await room('sealer').getByLabel('Coats').fill('1–3');
  await room('sealer').getByLabel('Tinted with').selectOption({ index: 1 });
  await match.getByRole('button', { name: 'Keep these choices' }).click();
  await match.locator('.problems').waitFor();
  assert.match(await match.locator('.problems').textContent(), /tint needs tint_percent/);
  await room('sealer').getByLabel('Powder, % by weight').fill('x');
  await match.getByRole('button', { name: 'Keep these choices' }).click();
  assert.match(await match.locator('.problems').textContent(), /^Powder, % by weight: “x”/);
  await room('sealer').getByLabel('Powder, % by weight').fill('0.2');
  await room('dye').locator('summary').click();
  await room('dye').getByLabel('Parts of liquid').fill('20–60 / 20');
  await after(page, () => match.getByRole('button', { name: 'Keep these choices' }).click());
  const text = await savedText(page);
  writeFileSync(folder + '/search.toml', text);
  toldBy('search.toml');  // read whole, search and all
  assert.match(text, /on_hand = \[[^\]]*"tung"/);
  assert.match(text, /water = \{ from = 20, to = 60, step = 20 \}/);
  assert.match(text, /sealer = \{[^\n]*cut_lb = \[\s*1, 1\.5\s*\][^\n]*coats = \{ from = 1, to = 3 \}/);
  assert.match(text, /sealer = \{[^\n]*always = true/);
  const other = await open({ still: true });
  await after(other, () => openScene(other, 'search.toml', text));
  await task(other, 'p-match');
  await other.locator('#p-match .choices > summary').click();
  await other.locator('#p-match [data-room=sealer] > summary').click();
  assert.equal(await other.locator('#p-match [data-room=sealer]').getByLabel('Cut, lb').inputValue(), '1 1.5');
  assert.equal(await other.locator('#p-match [data-room=sealer]').getByLabel('Coats').inputValue(), '1–3');
  assert.equal(await other.locator('#p-match input[value=tung]').first().isChecked(), true);
  assert.deepEqual([...page.faults, ...other.faults], []);
});

test('a first board that is typed is corrected as the command line does, and the change goes on the wall', async () => {
  const page = await open({ still: true });
  await after(page, () => openScene(page, 'stool-maple.toml'));
  await page.locator('.board').nth(2).click();
  await task(page, 'p-boards');
  const pane = page.locator('#p-boards');
  await pane.getByRole('button', { name: 'What would mend it?' }).click();
  assert.match(await pane.locator('.problems').textContent(), /^L of the finished board: there is no number/);
  for (const [i, v] of ['52,41', '22.53', '49.02'].entries()) await pane.locator('.lab').nth(i).fill(v);
  await pane.getByRole('button', { name: 'What would mend it?' }).click();
  await pane.locator('.result').waitFor({ timeout: 60000 });
  const told = run('correct', scenes + 'stool-maple.toml', '--finish', 'dye, shellac, waterborne', '--measured',
    scenes + 'readings/stool-first-board.txt');
  const names = { 'honey-dye': 'Honey dye', 'russet-dye': 'Russet dye', water: 'water' };
  const said = await pane.locator('.result .recipe').allTextContents();
  assert.equal(said.length, told.proposals.length);
  assert.ok(said.length > 0);
  const plain = (s) => s.replace(/[a-z]+(-[a-z]+)+/g, (id) => names[id] || id).replace(/[\d.]+/g, (n) =>
    String(Number(Number(n).toPrecision(2)))).toLowerCase();
  assert.equal(plain(said[0]), plain(told.proposals[0].do));
  // The same reading in a file, given to the page, says the same.
  await given(page, ['first.txt', 'readings/stool-first-board.txt']);
  await page.getByRole('button', { name: 'Of the first finished board' }).click();
  await pane.getByText('first.txt, readings: 1').waitFor();
  await pane.getByRole('button', { name: 'What would mend it?' }).click();
  await page.waitForSelector('#p-boards progress');
  await pane.locator('.result').waitFor({ timeout: 60000 });
  assert.deepEqual(await pane.locator('.result .recipe').allTextContents(), said);
  await after(page, () => pane.locator('.result .found button').first().click());
  const text = await savedText(page);
  assert.match(text, /^name = "dye, shellac, waterborne, corrected"$/m);
  writeFileSync(folder + '/corrected.toml', text);
  await page.locator('.board').nth(3).waitFor();
  assert.deepEqual(await colors(page), toldBy('corrected.toml'));
  await after(page, () => page.click('#undo'));
  assert.equal(await savedText(page), readFileSync(scenes + 'stool-maple.toml', 'utf8'));
  assert.deepEqual(page.faults, []);
});

test('a step board that is typed makes materials that the job takes, and gives back by Undo', async () => {
  const page = await open({ still: true });
  const text = await savedText(page);
  const stages = run('preview', (writeFileSync(folder + '/first.toml', text), 'first.toml'), '--no-pictures')
    .finishes[0].stages.filter((s) => s.stage !== 'damp').map((s) => s.colors[0].Lab);
  await task(page, 'p-boards');
  const rows = page.locator('#p-boards .state');
  assert.equal(await rows.count(), stages.length);
  // A board that came out two units darker all along; the row left empty was not read.
  for (const [i, [l, a, b]] of stages.entries())
    if (i !== 2) for (const [k, v] of [l - 2, a, b].entries()) await rows.nth(i).locator('.lab').nth(k).fill(
      v.toFixed(2));
  await page.getByRole('button', { name: 'Learn from it' }).click();
  await page.waitForSelector('#fit-take', { timeout: 60000 });
  assert.equal(await page.locator('#p-boards .result tbody').first().locator('tr').count(), stages.length - 1);
  const before = await colors(page);
  await after(page, () => page.click('#fit-take'));
  assert.match(await page.textContent('#say'), /^The job uses now Hard maple[^]*own boards/);
  const now = await savedText(page);
  assert.match(now, /^use = "my-hard-maple"$/m);
  assert.notDeepEqual(await colors(page), before);
  await after(page, () => page.click('#undo'));
  assert.equal(await savedText(page), text);
  assert.deepEqual(page.faults, []);
});

test('step boards that are dropped become the job’s materials; all of it goes into one file, which both open',
  async () => {
  const page = await open({ still: true });
  await after(page, () => openScene(page, 'stool-maple.toml'));
  const before = await colors(page);
  await given(page, ['maple-plank.toml', 'boards/maple-plank.toml'], ['maple-plank.csv', 'readings/maple-plank.csv']);
  await page.waitForSelector('#fit-take', { timeout: 60000 });
  assert.equal(await page.locator('#p-boards .result tbody tr').first().count(), 1);
  await after(page, () => page.click('#fit-take'));
  const text = await savedText(page);
  assert.match(text, /^use = "plank-maple"$/m);
  assert.match(text, /use = "march-honey", parts = 4 \}, \{ use = "russet-dye"/);
  assert.doesNotMatch(text, /"honey-dye"|"orange-shellac"|"hard-maple"/);
  assert.match(await page.textContent('#say'), /It needs maple-plank-fitted\.toml beside it/);
  const now = await colors(page);
  assert.notDeepEqual(now, before);

  await given(page, ['board photo.jpg', 'photos/maple-board.jpg']);
  await page.locator('#p-photo').getByLabel('Left of the card, pixels').fill('12');
  await page.click('#more');
  const [download] = await Promise.all([page.waitForEvent('download'), page.click('#bundle')]);
  assert.equal(download.suggestedFilename(), 'stool-maple.zip');
  const zip = readFileSync(await download.path());
  writeFileSync(folder + '/job.zip', zip);
  assert.deepEqual(toldBy('job.zip'), now);
  // What was learned together is kept: the command line's own fit gives the same sureness.
  execFileSync(program, ['fit', scenes + 'boards/maple-plank.toml', '--out', folder, '--quiet'], { cwd: folder });
  writeFileSync(folder + '/own.toml', text.replace('maple-plank-fitted.toml', 'maple-plank.toml'));
  const spread = (file) => run('preview', file, '--no-pictures').finishes.map((f) =>
    f.stages.at(-1).colors[0].spread_materials_dE00);
  const [page_s, own_s] = [spread('job.zip'), spread('own.toml')];
  own_s.forEach((v, i) => assert.ok(Math.abs(v - page_s[i]) < 0.01 * v, `${page_s[i]} for ${v}`));

  const other = await open({ still: true });
  await after(other, () => given(other, ['job.zip', zip]));
  assert.equal(await savedText(other), text);
  assert.deepEqual(await colors(other), now);
  await other.waitForSelector('#shot canvas', { state: 'attached' });
  assert.equal(await other.locator('#p-photo').getByLabel('Left of the card, pixels').inputValue(), '12');
  assert.deepEqual([...page.faults, ...other.faults], []);
});
