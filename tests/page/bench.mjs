// How long the page makes its users wait. A benchmark, not a test: it prints figures and judges none.
import { after, chrome, done, open, openScene } from './drive.mjs';

const middle = (list, share) => [...list].sort((a, b) =>
  a - b)[Math.min(list.length - 1, Math.floor(share * list.length))];
const told = (list) => list.map((t) => Math.round(t)).join(', ');

async function firstBoard() {
  const took = [];
  for (let i = 0; i < 3; ++i) {
    const page = await open();
    took.push(await page.evaluate(() => {
      const of = (name) => performance.getEntriesByName(name)[0].startTime;
      return of('first-board') - of('first-paint');
    }));
    await page.context().close();
  }
  console.log(`first paint to first board: ${told(took)} ms`);
}

async function slider() {
  const page = await open();
  await after(page, () => openScene(page, 'library-oak.toml'));
  await after(page, async () => {
    await page.locator('input[name=stage]').last().check({ force: true });
    await page.locator('input[name=light]').first().check({ force: true });
    await page.locator('input[name=light]').nth(1).check({ force: true });
  });
  await page.locator('.board').nth(2).click();
  const band = page.locator('.finish').nth(2).locator('.band').last();
  if (await band.getAttribute('aria-expanded') === 'false') await band.click();
  const measure = (n) => page.evaluate(async (count) => {
    const slider = document.querySelectorAll('.finish')[2].querySelector('input[type=range]');
    const took = [], low = Number(slider.min), high = Number(slider.max);
    const turn = () => new Promise((r) => {
      const c = new MessageChannel();
      c.port1.onmessage = r;
      c.port2.postMessage(0);
    });
    for (let i = 0; i < count; ++i) {
      const before = document.body.dataset.drawn, began = performance.now();
      slider.value = String(low + (high - low) * ((i * 0.137) % 1));
      slider.dispatchEvent(new Event('input'));
      while (document.body.dataset.drawn === before) await turn();
      took.push(performance.now() - began);
    }
    return took;
  }, n);
  await measure(30);
  const took = await measure(120);
  const [half, most] = [0.5, 0.95].map((share) => middle(took, share).toFixed(1));
  console.log(`slider to redraw at four finishes: median ${half} ms, 95 % within ${most} ms`);
}

await chrome();
await firstBoard();
await slider();
await done();
