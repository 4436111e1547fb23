// The page in Firefox too, driven by WebDriver BiDi: it opens from disk, shows the same colors as in Chromium to the
// last digit, and a change goes in and comes out of Save.
import assert from 'node:assert/strict';
import { after as atEnd, test } from 'node:test';
import playwright from 'playwright-core';
import { done, open, page_file } from './drive.mjs';

let firefox = null;
atEnd(async () => { await done(); if (firefox) await firefox.close(); });

const until = async (page, what, arg) => {
  for (const end = Date.now() + 30000; Date.now() < end; await new Promise((r) => setTimeout(r, 10)))
    if (await page.evaluate(what, arg)) return;
  throw new Error('not within 30 s: ' + what);
};

async function inFirefox() {
  // In this version of playwright BiDi goes by a name of its own.
  firefox = await playwright._bidiFirefox.launch({ executablePath: process.env.FIREFOX || '/usr/bin/firefox-esr' });
  const page = await (await firefox.newContext({ viewport: { width: 1440, height: 1000 } })).newPage();
  page.faults = [];
  page.on('pageerror', (e) => page.faults.push(e.message));
  page.on('console', (m) => { if (m.type() === 'error') page.faults.push(m.text()); });
  await page.goto('file://' + page_file);
  await until(page, () => !!document.body.dataset.ready);
  return page;
}

// The same steps in either browser; what is saved is kept instead of going among the downloads.
async function session(page) {
  await page.evaluate(() => {
    const address = URL.createObjectURL.bind(URL), click = HTMLAnchorElement.prototype.click;
    URL.createObjectURL = (blob) => { if (blob.type === 'application/toml') blob.text().then((s) =>
      { window.saved = s; });
      return address(blob); };
    HTMLAnchorElement.prototype.click = function () { if (!this.hasAttribute('download')) click.call(this); };
  });
  const colors = () => page.evaluate(() => [...document.querySelectorAll('.board')].map((b) =>
    b.style.getPropertyValue('--color')));
  const seen = [await colors()];
  // A dye is made stronger, then the lamp is lit.
  const dye = page.locator('.finish.chosen .turn .number').first();
  await dye.focus();
  await page.keyboard.press('ArrowUp');
  await until(page, (was) => document.querySelector('.board').style.getPropertyValue('--color') !== was, seen[0][0]);
  seen.push(await colors());
  await page.evaluate(() => document.querySelector('input[name=light][value=A]').click());
  await until(page, (was) => document.querySelector('.board').style.getPropertyValue('--color') !== was, seen[1][0]);
  seen.push(await colors());
  await page.evaluate(() => document.getElementById('save').click());
  await until(page, () => !!window.saved);
  const painted = await page.evaluate(() => [...document.querySelectorAll('.board canvas')].map((c) =>
    new Set(c.getContext('2d').getImageData(0, 0, c.width, Math.min(c.height, 40)).data).size > 20));
  return { seen, saved: await page.evaluate(() => window.saved), painted };
}

test('Firefox shows what Chromium shows, takes a change and saves it', async () => {
  const page = await inFirefox();
  const there = await session(page);
  assert.deepEqual(page.faults, []);
  assert.deepEqual(there.painted, [true, true, true]);
  assert.match(there.saved, /use = "honey-dye", parts = 4\.1/);
  const chromium = await open({ still: true });
  assert.deepEqual(await session(chromium), there);
});
