// The page in Chromium, opened from disk as a user would, with every network request noted.
import { existsSync, readFileSync } from 'node:fs';
import { afterEach } from 'node:test';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export const page_file = process.env.PAGE || fileURLToPath(new URL('../../out/foretone.html', import.meta.url));
export const program = process.env.FORETONE || fileURLToPath(new URL('../../build/foretone', import.meta.url));
export const scenes = fileURLToPath(new URL('../../scenes/', import.meta.url));

const quiet = ['--no-sandbox', '--process-per-site', '--disable-gpu', '--disable-quic', '--no-first-run',
  '--disable-background-networking', '--disable-component-update', '--disable-sync'];
let browser = null;
// The same browser without windows of its own opens a page in a fifth of the time.
const windowless = '/usr/bin/chromium-headless-shell';
export async function chrome() {
  browser = browser || await chromium.launch({ args: quiet,
    executablePath: process.env.CHROMIUM || (existsSync(windowless) ? windowless : '/usr/bin/chromium') });
  return browser;
}
export async function done() { if (browser) await browser.close(); browser = null; }
// One page stays open, so that the browser keeps the core as it has compiled it: the next opens in half the time. What
// a test has opened is closed as it ends, and what the browser kept of it is forgotten before the next.
const usual = { locale: 'en-US', acceptDownloads: true };
let home = null, keeper = null;
async function atHome() {
  if (!home) {
    home = await (await chrome()).newContext(usual);
    keeper = await home.newPage();
    await keeper.addInitScript(atRest, 'off');
    await keeper.goto('file://' + page_file);
    await when(keeper, () => !!document.body.dataset.ready);
    home.on('close', () => { home = keeper = null; });
  }
  if (home.pages().length > 1) return null;
  await keeper.evaluate(() => new Promise((done, fail) => {
    localStorage.clear();
    const r = indexedDB.open('foretone', 1);
    r.onerror = () => fail(r.error);
    r.onsuccess = () => {
      const all = r.result.transaction('jobs', 'readwrite');
      all.objectStore('jobs').clear();
      all.oncomplete = () => { r.result.close(); done(); };
      all.onerror = () => fail(all.error);
    };
  }));
  return home;
}
const atRest = (works) => {
  try { localStorage.setItem('foretone.at-rest', works); } catch { /* about:blank has none */ }
};
afterEach(async () => {
  for (const c of browser ? browser.contexts() : [])
    if (c !== home) await c.close();
    else for (const p of c.pages()) if (p !== keeper) await p.close();
});

// `rest`: what follows by itself while nothing moves (boards drawn finely, how sure a color is, years) is worked out.
// Most tests are of other things, and do not wait for a core that does what none of them looks at. `cold`: in a browser
// that has never seen the page.
export async function open({ width = 1440, height = 1000, dark = false, still = false, locale = 'en-US',
  rest = false, cold = false } = {}) {
  const context = (!cold && locale === usual.locale && await atHome()) ||
    await (await chrome()).newContext({ ...usual, locale });
  const page = await context.newPage();
  await page.setViewportSize({ width, height });
  await page.emulateMedia({ colorScheme: dark ? 'dark' : 'light', reducedMotion: still ? 'reduce' : 'no-preference' });
  // Said by each page itself: what another has written may still be under way to it.
  await page.addInitScript(atRest, rest ? 'on' : 'off');
  page.requests = [];
  page.faults = [];
  page.on('request', (r) => { if (!/^(file|data|blob):/.test(r.url())) page.requests.push(r.url()); });
  page.on('pageerror', (e) => page.faults.push(e.message));
  page.on('console', (m) => { if (m.type() === 'error') page.faults.push(m.text()); });
  page.on('dialog', (d) => (d.type() === 'beforeunload' ? d.accept() : page.faults.push('a dialog: ' + d.message())));
  await page.goto('file://' + page_file);
  await drawn(page, 0);
  await when(page, () => !!document.body.dataset.ready);
  return page;
}

// Until the page has drawn more often than `before`; returns how often.
export async function drawn(page, before) {
  for (const end = Date.now() + 60000; Date.now() < end;) {
    const now = await page.evaluate(drawnInside, [before, 5000]);
    if (now > before) return now;
  }
  throw new Error('nothing was drawn within a minute; the page says: ' + (await page.textContent('#trouble')) +
    page.faults.join('; '));
}
// Watched from inside, which costs nothing while it waits.
const drawnInside = ([before, ms]) => new Promise((done) => {
  const now = () => Number(document.body.dataset.drawn || 0);
  const end = () => { watch.disconnect(); clearTimeout(late); done(now()); };
  const watch = new MutationObserver(() => { if (now() > before) end(); }), late = setTimeout(end, ms);
  watch.observe(document.body, { attributes: true, attributeFilter: ['data-drawn'] });
  if (now() > before) end();
});
// Until something holds in the page, also across loads of it.
export async function when(page, what, arg) {
  for (const end = Date.now() + 60000; Date.now() < end; await new Promise((r) => setTimeout(r, 10)))
    if (await page.evaluate(what, arg)) return;
  throw new Error('not within a minute: ' + what);
}
export const times = (page) => page.evaluate(() => Number(document.body.dataset.drawn || 0));

// Does something and waits for the drawing it causes.
export async function after(page, act) {
  const before = await times(page);
  await act();
  await drawn(page, before);
}

// The pane of one task; the layers are one too.
export const task = (page, id) => page.click('#tab-' + id);

// Figures are shown to those who ask for them.
export async function figures(page, on = true) {
  await page.click('#more');
  await page.locator('#numbers').setChecked(on);
  await page.locator('#box .head button').click();
}

// Until the boards are drawn a pixel for every pixel of the screen.
export async function refined(page) {
  for (const end = Date.now() + 60000; Date.now() < end; await new Promise((r) => setTimeout(r, 20)))
    if (await page.evaluate(() => document.body.dataset.fine)) return;
  throw new Error('the boards were not refined within a minute');
}

export async function openScene(page, name, text) {
  const buffer = Buffer.from(text === undefined ? readFileSync(scenes + name) : text);
  await page.setInputFiles('#files', { name, mimeType: 'text/plain', buffer });
}

export async function savedText(page) {
  const [download] = await Promise.all([page.waitForEvent('download'), page.click('#save')]);
  return readFileSync(await download.path(), 'utf8');
}

// Asks the page's own core, in a worker begun as the page begins its own.
export const core = (page, files) => page.evaluate(async (held) => {
  if (window.testCore) return;
  const letters = atob([...document.querySelectorAll('.core')].map((e) => e.textContent).join('')),
    packed = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; ++i) packed[i] = letters.charCodeAt(i);
  const module = await WebAssembly.compile(await new Response(
    new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'))).arrayBuffer());
  const worker = new Worker(URL.createObjectURL(new Blob([document.getElementById('worker').textContent],
    { type: 'text/javascript' })));
  worker.postMessage({ module, files: held });
  await new Promise((ready) => { worker.onmessage = ready; });
  let id = 0;
  window.testCore = (request) => new Promise((done, fail) => {
    worker.onmessage = ({ data }) => (data.failed ? fail(new Error(data.failed)) : data.id && done(data.answer));
    worker.postMessage({ job: 'ask', id: ++id, request });
  });
}, files);
export async function ask(page, request, files = {}) {
  await core(page, files);
  return page.evaluate((r) => window.testCore(r), request);
}
