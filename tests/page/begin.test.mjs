// A beginning, and nothing lost: new jobs, examples, what the browser keeps, links, and one's own data by dropping.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after as atEnd, test } from 'node:test';
import { after, chrome, done, open, openScene, page_file, savedText, scenes } from './drive.mjs';

atEnd(done);

const until = async (page, what, arg) => {
  for (const end = Date.now() + 20000; Date.now() < end; await new Promise((r) => setTimeout(r, 20)))
    if (await page.evaluate(what, arg)) return;
  throw new Error('not within 20 s: ' + what);
};
const records = (page) => page.evaluate(() => new Promise((done) => {
  const r = indexedDB.open('foretone', 1);
  r.onsuccess = () => { const all = r.result.transaction('jobs').objectStore('jobs').getAll();
    all.onsuccess = () => done(all.result); };
}));
const reload = async (page, hash = '') => {
  await page.goto('about:blank');
  await page.goto('file://' + page_file + hash);
  await until(page, () => !!document.body.dataset.ready);
};
const kept = async (page, like) => {
  for (const end = Date.now() + 20000; Date.now() < end; await new Promise((r) => setTimeout(r, 20)))
    if ((await records(page)).some((r) => like.test(r.text))) return;
  throw new Error('never kept: ' + like);
};
const give = (page, name, text, mimeType = 'text/plain') => page.setInputFiles('#files', { name, mimeType,
  buffer: Buffer.from(text) });

test('a new job is made of what there is: wood, what is owned, what is wanted', async () => {
  const page = await open({ still: true });
  await page.click('#new');
  const box = page.locator('#box');
  await box.getByLabel('Name of the job').fill('Hall "bench"');
  await box.locator('select').first().selectOption('cherry');
  // Nothing is ticked that nobody ticked; nothing to finish with is said, and nothing is begun.
  assert.equal(await box.locator('input:checked').count(), 0);
  await page.click('#start-go');
  assert.match(await box.locator('.refused').textContent(), /Tick at least one oil/);
  await box.locator('input[value=honey-dye]').check();
  assert.match(await page.textContent('#start-sum'), /Tick at least one oil/);
  await box.locator('input[value=waterborne-acrylic]').check();
  assert.equal(await page.textContent('#start-sum'), '1 board: Honey dye, Waterborne acrylic.');
  await page.check('#start-beside');
  assert.match(await page.textContent('#start-sum'), /^2 boards: Honey dye, Waterborne acrylic; Waterborne acrylic\.$/);
  // Begin and Close are in sight wherever the box is scrolled to.
  for (const to of [0, 1e6]) {
    await box.locator('.body').evaluate((b, y) => { b.scrollTop = y; }, to);
    for (const button of ['#start-go', '#box .head button']) {
      const r = await page.locator(button).boundingBox();
      assert.ok(r.y >= 0 && r.y + r.height <= 1000, button + JSON.stringify(r));
    }
  }
  await page.uncheck('#start-beside');
  await after(page, () => page.click('#start-go'));
  const text = await savedText(page);
  assert.match(text, /^title = "Hall \\"bench\\""$/m);
  assert.match(text, /^use = "cherry"$/m);
  assert.equal(text.match(/^\[\[finish\]\]/gm).length, 1);
  // The dye lies under the film.
  assert.match(text.slice(text.lastIndexOf('[[finish]]')), /honey-dye[^]*waterborne-acrylic/);
  assert.match(await page.textContent('#say'), /^hall-bench\.toml is saved/);
  assert.equal(await page.locator('#box').isVisible(), false);
  assert.deepEqual(page.faults, []);
});

test('what is pressed before the page is ready is done once it is', async () => {
  const page = await (await (await chrome()).newContext()).newPage();
  await page.goto('file://' + page_file, { waitUntil: 'commit' });
  await page.click('#new');
  assert.equal(await page.evaluate(() => document.body.dataset.ready), undefined);
  assert.equal(await page.getAttribute('#new', 'aria-busy'), 'true');
  await page.waitForSelector('#box[open] #start-go');
  assert.equal(await page.getAttribute('#new', 'aria-busy'), null);
  assert.equal(await page.evaluate(() => document.getElementById('wall').inert), false);
});

test('each example opens with its boards, and Undo brings back the job before it', async () => {
  const page = await open({ still: true });
  const before = await savedText(page);
  for (const name of ['stool-maple', 'desk-walnut', 'blotch-pine', 'linseed-then-waterborne']) {
    await page.click('#new');
    await after(page, () => page.click(`[data-example="${name}"]`));
    assert.equal(await savedText(page), readFileSync(scenes + name + '.toml', 'utf8'));
  }
  for (let i = 0; i < 4; ++i) await after(page, () => page.click('#undo'));
  assert.equal(await savedText(page), before);
  assert.deepEqual(page.faults, []);
});

test('what is changed is kept in the browser, comes back when the page is opened again, and is listed with a picture',
  async () => {
  const page = await open({ still: true });
  assert.equal((await records(page)).length, 0);  // looking changes nothing
  await after(page, async () => { await page.fill('#title', 'Hall bench'); await page.keyboard.press('Enter'); });
  assert.match(await page.textContent('#kept'), /not in a file yet/);
  await kept(page, /Hall bench/);
  await reload(page);
  assert.equal(await page.inputValue('#title'), 'Hall bench');
  assert.match(await page.textContent('#say'), /“Hall bench” is as you left it/);
  const text = await savedText(page);
  assert.equal(await page.textContent('#kept'), 'saved in a file');

  // Another job beside it: both are listed, and the first opens again as it was.
  await page.click('#new');
  await after(page, () => page.click('[data-example="desk-walnut"]'));
  await after(page, async () => { await page.fill('#title', 'Second'); await page.keyboard.press('Enter'); });
  await kept(page, /"Second"/);
  await page.click('#new');
  const list = page.locator('.earlier li');
  await list.nth(1).waitFor();
  assert.deepEqual(await list.locator('strong').allTextContents(), ['Second', 'Hall bench']);
  assert.ok(await list.nth(1).locator('img').evaluate((i) => i.complete && i.naturalWidth === 216));
  await after(page, () => page.getByRole('button', { name: 'Open: Hall bench' }).click());
  assert.equal(await savedText(page), text);
  // Undo goes back to the other job; its record is not written over.
  await after(page, () => page.click('#undo'));
  assert.equal(await page.inputValue('#title'), 'Second');
  assert.deepEqual((await records(page)).map((r) => r.title).sort(), ['Hall bench', 'Second']);
  await page.click('#new');
  await page.getByRole('button', { name: 'Forget: Hall bench' }).click();
  await until(page, () => document.querySelectorAll('.earlier li').length === 1);
  assert.deepEqual((await records(page)).map((r) => r.title), ['Second']);
  assert.deepEqual(page.faults, []);
});

test('two windows on one job write over nothing of each other', async () => {
  const page = await open({ still: true });
  await after(page, async () => { await page.fill('#title', 'Mine'); await page.keyboard.press('Enter'); });
  await kept(page, /"Mine"/);
  const other = await page.context().newPage();
  await reload(other);
  assert.equal(await other.inputValue('#title'), 'Mine');
  await after(other, async () => { await other.fill('#title', 'Theirs'); await other.keyboard.press('Enter'); });
  await kept(other, /"Theirs"/);
  await after(page, async () => { await page.fill('#title', 'Mine still'); await page.keyboard.press('Enter'); });
  await kept(page, /"Mine still"/);
  const titles = (await records(page)).map((r) => r.title);
  for (const t of ['Theirs', 'Mine still']) assert.ok(titles.includes(t), titles.join());
});

test('a link carries a job, and is opened only after asking', async () => {
  const page = await open({ still: true });
  await after(page, async () => { await page.fill('#title', 'For <b>you</b> ✓'); await page.keyboard.press('Enter'); });
  const text = await savedText(page);
  await page.click('#more');
  await page.click('#share');
  const link = await page.inputValue('#link');
  assert.match(link, /#job=[\w-]+$/);
  assert.ok(link.length < 2000, String(link.length));
  const hash = link.slice(link.indexOf('#'));
  const page2 = await open({ still: true });
  const own = await savedText(page2);
  await reload(page2, hash);
  await page2.waitForSelector('#link-yes');
  assert.match(await page2.textContent('#box'), /For <b>you<\/b> ✓/);
  assert.equal(await page2.locator('#box b').count(), 0);
  assert.equal(await page2.evaluate(() => location.hash), '');
  await page2.getByRole('button', { name: 'Leave it' }).click();
  assert.equal(await savedText(page2), own);
  await reload(page2, hash);
  await page2.waitForSelector('#link-yes');
  await after(page2, () => page2.click('#link-yes'));
  assert.equal(await savedText(page2), text);
  // What is no job is refused in words, in a page that is opened with it and in one that stands open.
  for (const bad of ['#job=AAAA', '#job=%%%', '#job=' + 'A'.repeat(60000)]) {
    if (bad === '#job=AAAA') await reload(page2, bad);
    else await page2.evaluate((hash) => {
      document.getElementById('trouble').replaceChildren();
      location.hash = hash;
    }, bad);
    await until(page2, () => !!document.getElementById('trouble').textContent);
    assert.match(await page2.textContent('#trouble'), /no job that can be read|cannot be opened/, bad.slice(0, 20));
  }
  assert.deepEqual(page2.requests, []);
});

const csv = 'wavelength_nm,reflectance\n' + Array.from({ length: 31 }, (_, i) =>
  `${400 + 10 * i},${(0.25 + 0.012 * i).toFixed(3)}\n`).join('');

test('a reading that is given becomes the wood or the target, as is said', async () => {
  const page = await open({ still: true });
  await give(page, 'my-board.csv', csv);
  await page.waitForSelector('#box[open]');
  assert.match(await page.textContent('#box-title'), /my-board\.csv is a reading/);
  await after(page, () => page.getByRole('button', { name: 'Of the bare wood' }).click());
  assert.match(await savedText(page), /\[wood\]\n(?:.*\n)*?reflectance = "my-board\.csv"/);
  await give(page, 'sample.csv', csv.replaceAll(',0.', ',0.1'));
  await page.waitForSelector('#box[open]');
  await after(page, () => page.getByRole('button', { name: 'Of the target' }).click());
  const text = await savedText(page);
  assert.match(text, /\[target\]\n(?:.*\n)*?reflectance = "sample\.csv"/);
  assert.match(text, /reflectance = "my-board\.csv"/);
  // Both are there again when the page is.
  await kept(page, /sample\.csv/);
  await reload(page);
  assert.equal(await savedText(page), text);
  assert.equal(await page.locator('#trouble').isHidden(), true);
  // A link cannot carry them, and says so.
  await page.click('#more');
  await page.click('#share');
  assert.match(await page.textContent('#box'), /needs files of its own \(my-board\.csv, sample\.csv\)/);
  assert.deepEqual(page.faults, []);
});

test('a file of materials joins the shelf and stays there on another wood', async () => {
  const page = await open({ still: true });
  await after(page, () => give(page, 'shop.toml', 'format = 1\n[material.house-varnish]\nkind = "film"\n' +
    'like = "oil-varnish"\nname = "House varnish"\ngardner = 12\n'));
  assert.match(await savedText(page), /^materials = \[\s*"shop\.toml"\s*\]$/m);
  const offered = () => page.locator('[data-spot=add0] option').allTextContents();
  assert.ok((await offered()).includes('House varnish'), (await offered()).join());
  await after(page, () => page.selectOption('#wood', 'ash'));
  assert.ok((await offered()).includes('House varnish'));
  await page.locator('[data-spot=add0]').selectOption({ label: 'House varnish' });
  await after(page, () => page.locator('.finish.chosen').getByRole('button', { name: 'Add this layer' }).click());
  assert.match(await savedText(page), /use = "house-varnish"/);
  assert.deepEqual(page.faults, []);
});

test('a picture that is given goes to the photograph’s tools', async () => {
  const page = await open({ still: true });
  await page.setInputFiles('#files', scenes + 'photos/maple-board.jpg');
  await page.waitForSelector('#shot canvas');
  assert.ok(await page.locator('#p-photo').isVisible());
  assert.ok(await page.getByRole('button', { name: 'Finish it' }).isVisible());
});

test('oil goes under a film and wax over it, unless it is said otherwise', async () => {
  const page = await open({ still: true });
  await after(page, () => openScene(page, 'a.toml', 'format = 1\n[wood]\nuse = "ash"\n[[finish]]\nname = "a"\n' +
    '[[finish.step]]\nuse = "waterborne-acrylic"\n'));
  const finish = page.locator('.finish').first(), where = finish.getByLabel('Where it goes');
  const first = (kind) => finish.locator(`[data-spot=add0] option[value^="${kind}/"]`).first().getAttribute('value');
  await finish.getByLabel('Another layer').selectOption(await first('oil'));
  assert.equal(await where.inputValue(), '0');
  await after(page, () => finish.getByRole('button', { name: 'Add this layer' }).click());
  await finish.getByLabel('Another layer').selectOption(await first('wax'));
  assert.equal(await where.inputValue(), '2');
  await finish.getByLabel('Another layer').selectOption(await first('stock'));
  assert.equal(await where.inputValue(), '0');
});


test('a file that a scene needs is asked for by name, once, and the scene opens when it comes', async () => {
  const page = await open({ still: true });
  await openScene(page, 'stool-own-materials.toml');
  const ask = page.getByRole('button', { name: 'Choose maple-plank.toml' });
  await ask.waitFor();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), ask.click()]);
  await after(page, () => chooser.setFiles(scenes + 'fitted/maple-plank.toml'));
  assert.equal(await page.inputValue('#title'), 'Piano stool, own materials');
  assert.equal(await page.locator('#trouble').isHidden(), true);
  assert.deepEqual(page.faults, []);
});

test('a name given while materials are still being opened is kept, also when they come a second time', async () => {
  const page = await open({ still: true });
  const toml = 'format = 1\n[material.own]\nkind = "film"\nlike = "oil-varnish"\n';
  for (const name of ['first', 'second']) {
    await page.evaluate(([text, word]) => {
      const input = document.getElementById('files'), bag = new DataTransfer();
      bag.items.add(new File([text], 'shop.toml'));
      input.files = bag.files;
      input.dispatchEvent(new Event('change'));
      const field = document.querySelector('[data-spot=name0]');
      field.value = word;
      field.dispatchEvent(new Event('change'));
    }, [toml, name]);
    for (let i = 0; i < 400 && !/on the shelf/.test(await page.textContent('#say')); ++i)
      await new Promise((r) => setTimeout(r, 20));
    const text = await savedText(page);
    assert.match(text, new RegExp(`^name = "${name}"$`, 'm'));
    assert.match(text, /^materials = /m);
  }
  assert.deepEqual(page.faults, []);
});
