// The page computes what the command line computes.
import assert from 'node:assert/strict';
import { execFile, execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { promisify } from 'node:util';
import { after as atEnd, test } from 'node:test';
import { after, ask, done, figures, open, openScene, program, savedText, scenes } from './drive.mjs';

atEnd(done);

const folder = mkdtempSync(tmpdir() + '/page-');
const verb = (...args) => JSON.parse(execFileSync(program, [...args, '--json', '-', '--quiet'],
  { cwd: folder, stdio: ['ignore', 'pipe', 'ignore'], maxBuffer: 1 << 26 }));

// The same while the page works out its own.
const beside = async (...args) => JSON.parse((await promisify(execFile)(program, [...args, '--json', '-', '--quiet'],
  { cwd: folder, maxBuffer: 1 << 26 })).stdout);

cpSync(scenes, folder, { recursive: true });

// What the demo scenes refer to, by name, as a user would choose it together with them.
const held = {};
for (const sub of ['readings', 'fitted'])
  for (const name of readdirSync(scenes + sub)) held[name] = readFileSync(scenes + sub + '/' + name, 'utf8');

// The largest difference between two results, numbers relative to their size where that is above 1; anything else must
// be equal.
function compare(a, b, path, worst) {
  if (typeof a === 'number' && typeof b === 'number') {
    const d = Math.abs(a - b) / Math.max(1, Math.abs(a));
    if (!(d <= worst.d)) Object.assign(worst, { d, path });
  } else if (a && typeof a === 'object' && b && typeof b === 'object') {
    assert.deepEqual(Object.keys(a), Object.keys(b), path);
    for (const k of Object.keys(a)) compare(a[k], b[k], path + '.' + k, worst);
  } else assert.equal(a, b, path);
  return worst;
}

test('on every demo scene the numbers of preview, coats and plan equal the command line’s to 1e-9', async () => {
  const page = await open();
  const files = readdirSync(scenes).filter((n) => n.endsWith('.toml'));
  assert.ok(files.length >= 8);
  const worst = { d: 0, path: '' };
  let compared = 0;
  for (const name of files) {
    const text = readFileSync(scenes + name, 'utf8');
    const both = (told, asked, files) => Promise.all([told, ask(page, asked, files)]);
    const [wanted, got] = await both(beside('preview', name, '--no-pictures'),
      { do: 'preview', text, file: name }, held);
    assert.ok(got.json, name + ': ' + JSON.stringify(got).slice(0, 300));
    compare(wanted, JSON.parse(got.json), name + ' preview', worst);
    const [told, coats] = await both(beside('coats', name, '--no-pictures'), { do: 'coats', text, file: name });
    compare(told, JSON.parse(coats.json), name + ' coats', worst);
    let plan = null;
    try { plan = await beside('plan', name, '--area', '2.5m2'); } catch { /* a finish that fails is refused by both */ }
    const first = wanted.finishes.findIndex((f) => f.name === (plan && plan.finish));
    const card = await ask(page, { do: 'plan', text, file: name, finish: Math.max(0, first), area: '2.5m2' });
    if (plan) compare(plan, JSON.parse(card.json), name + ' plan', worst);
    else assert.ok(card.problems, name);
    compared += 1;
  }
  console.log(`measured: ${compared} scenes, largest difference ${worst.d.toExponential(1)} at ${worst.path}`);
  assert.ok(worst.d <= 1e-9, `${worst.d} at ${worst.path}`);
});

test('what is on the page is what the core says: colors, difference to the target', async () => {
  const page = await open();
  const text = await page.evaluate(() => document.getElementById('scene').textContent);
  writeFileSync(folder + '/job.toml', text);
  const wanted = verb('preview', 'job.toml', '--no-pictures');
  await figures(page);
  const shown = await page.$$eval('.finish', (all) => all.map((f) =>
    ({ target: f.querySelector('.target').dataset.exact, values: f.querySelector('.values').textContent })));
  assert.equal(shown.length, wanted.finishes.length);
  wanted.finishes.forEach((f, i) => {
    const last = f.stages[f.stages.length - 1].colors[0];
    assert.ok(shown[i].values.includes(last.hex), shown[i].values + ' / ' + last.hex);
    assert.ok(shown[i].values.includes('L ' + last.Lab[0].toFixed(1)));
  });
  const exact = JSON.parse(shown[1].target);
  const due = wanted.differences.filter((d) => d.from === wanted.finishes[0].name &&
    d.to === wanted.finishes[1].name).map((d) => d.dE00);
  assert.equal(exact.length, due.length);
  exact.forEach((v, i) => assert.ok(Math.abs(v - due[i]) < 1e-9));
});

test('a scene goes through the page and back to the command line: opened, changed, saved, the same to both',
  async () => {
  const page = await open();
  await after(page, () => openScene(page, 'library-oak.toml'));
  const untouched = await savedText(page);
  assert.equal(untouched, readFileSync(scenes + 'library-oak.toml', 'utf8'));
  await page.locator('.board').first().click();
  const band = page.locator('.finish').nth(0).locator('.band').first();
  if (await band.getAttribute('aria-expanded') === 'false') await band.click();
  await after(page, async () => {
    const coats = page.locator('.finish').nth(0).getByLabel('Coats, typed');
    await coats.fill('2');
    await coats.press('Enter');
  });
  const text = await savedText(page);
  assert.equal(text, untouched.replace('coats = 3\n  method = "brush"\n  sheen_gu60 = 40',
    'coats = 2\n  method = "brush"\n  sheen_gu60 = 40'));
  writeFileSync(folder + '/library-oak.toml', text);
  const wanted = verb('preview', 'library-oak.toml', '--no-pictures');
  const got = JSON.parse((await ask(page, { do: 'preview', text, file: 'library-oak.toml' })).json);
  assert.ok(compare(wanted, got, 'round trip', { d: 0, path: '' }).d <= 1e-9);
  assert.deepEqual(page.faults, []);
});

test('a scene is opened together with the files it refers to', async () => {
  const page = await open();
  const name = 'stool-own-materials.toml';
  const files = [name, 'fitted/maple-plank.toml'].map((n) =>
    ({ name: n.split('/').pop(), mimeType: 'text/plain', buffer: readFileSync(scenes + n) }));
  await page.setInputFiles('#files', [files[0]]);
  await page.waitForSelector('#trouble:not([hidden])');
  assert.match(await page.textContent('#trouble'), /open it together with the scene/);
  await after(page, () => page.setInputFiles('#files', files));
  assert.equal(await page.inputValue('#title'), 'Piano stool, own materials');
});
