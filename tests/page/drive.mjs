// The page in Chromium, opened from disk as a user would, with every network request noted.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export const page_file = process.env.PAGE || fileURLToPath(new URL('../../out/foretone.html', import.meta.url));
export const program = process.env.FORETONE || fileURLToPath(new URL('../../build/foretone', import.meta.url));
export const scenes = fileURLToPath(new URL('../../scenes/', import.meta.url));

const quiet = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync'];
let browser = null;
export async function chrome() {
  browser = browser || await chromium.launch({ executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
    args: quiet });
  return browser;
}
export async function done() { if (browser) await browser.close(); browser = null; }

export async function open({ width = 1440, height = 1000, dark = false, still = false, locale = 'en-US' } = {}) {
  const context = await (await chrome()).newContext({
    locale, viewport: { width, height }, colorScheme: dark ? 'dark' : 'light',
      reducedMotion: still ? 'reduce' : 'no-preference', acceptDownloads: true,
  });
  const page = await context.newPage();
  page.requests = [];
  page.faults = [];
  page.on('request', (r) => { if (!/^(file|data|blob):/.test(r.url())) page.requests.push(r.url()); });
  page.on('pageerror', (e) => page.faults.push(e.message));
  page.on('console', (m) => { if (m.type() === 'error') page.faults.push(m.text()); });
  page.on('dialog', (d) => (d.type() === 'beforeunload' ? d.accept() : page.faults.push('a dialog: ' + d.message())));
  await page.goto('file://' + page_file);
  await drawn(page, 0);
  while (!(await page.evaluate(() => document.body.dataset.ready))) await new Promise((r) => setTimeout(r, 5));
  return page;
}

// Until the page has drawn more often than `before`; returns how often.
export async function drawn(page, before) {
  // Asked over and over from outside: the page's policy lets nobody evaluate text inside.
  for (const end = Date.now() + 60000; Date.now() < end; await new Promise((r) => setTimeout(r, 5))) {
    const now = await times(page);
    if (now > before) return now;
  }
  throw new Error('nothing was drawn within a minute; the page says: ' + (await page.textContent('#trouble')) +
    page.faults.join('; '));
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
  const letters = atob(document.getElementById('core').textContent), packed = new Uint8Array(letters.length);
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
