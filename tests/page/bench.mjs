// How long the page makes its users wait, by itself and with three busy programs beside it. A benchmark, not a test: it
// prints figures beside what is wanted (two quiet cores) and judges none.
import { spawn } from 'node:child_process';
import { availableParallelism, loadavg } from 'node:os';
import { after, chrome, done, open, openScene } from './drive.mjs';

const middle = (list, share) => [...list].sort((a, b) =>
  a - b)[Math.min(list.length - 1, Math.floor(share * list.length))];
const told = (list) => list.map((t) => Math.round(t)).join(', ');

async function firstBoard() {
  const took = [];
  for (let i = 0; i < 5; ++i) {
    const page = await open({ rest: true, cold: true });
    took.push(await page.evaluate(() => ['first-board', 'first-paint'].map((name) =>
      performance.getEntriesByName(name)[0].startTime)));
    await page.context().close();
  }
  console.log(`load to first board: ${told(took.map(([board]) => board))} ms (wanted: 1000)`);
  console.log(`of it first paint to first board: ${told(took.map(([board, paint]) => board - paint))} ms`);
}

async function slider(wanted) {
  const page = await open({ rest: true, cold: true });
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
  console.log(`slider to redraw at four finishes: median ${half} ms, 95 % within ${most} ms (wanted: ${wanted})`);
  await page.context().close();
}

const busy = () => Array.from({ length: 3 }, () => spawn(process.execPath, ['-e', 'for (;;);']));

await chrome();
console.log(`${availableParallelism()} cores, load before it: ${loadavg().map((l) => l.toFixed(1)).join(', ')}`);
await firstBoard();
await slider('33, 60');
console.log('three busy programs beside it:');
const others = busy();
try {
  await slider('60');
} finally {
  for (const o of others) o.kill();
}
await done();
