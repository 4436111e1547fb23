// Puts the page together: one file with its style, its face, its scripts and the core, and a policy that forbids it all
// network.
//   node pack.mjs CORE.wasm OUT.html
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { gzipSync } from 'node:zlib';

const [core, out] = process.argv.slice(2);
const folder = new URL('web/', import.meta.url), scenes = new URL('../../scenes/', import.meta.url);
const read = (name) => readFileSync(new URL(name, folder), 'utf8');

const scripts = readdirSync(folder).filter((n) => /^\d\d-.*\.js$/.test(n)).sort();
const script = "\n'use strict';\n(() => {\n" + scripts.map(read).join('\n') + '})();\n';
const worker = read('worker.js');
const examples = ['stool-maple', 'desk-walnut', 'blotch-pine', 'linseed-then-waterborne'].map((name) =>
  [name, readFileSync(new URL(name + '.toml', scenes), 'utf8')]);
for (const [name, text] of [['the scripts', script], ['the worker', worker], ['the first scene', read('first.toml')],
  ['the examples', JSON.stringify(examples)]])
  if (/<\/script|<!--/i.test(text)) throw new Error(name + ' would end the script element it lies in');

// The face that the sheet is set in, as far as western languages need it: a tenth of the whole.
function face(file, weight) {
  const at = mkdtempSync(tmpdir() + '/face-');
  try {
    execFileSync('/usr/bin/python3', ['-m', 'fontTools.subset', '/usr/share/fonts/truetype/lato/' + file,
      '--unicodes=U+20-7E,U+A0-17F,U+394,U+3BC,U+2010-2027,U+2030,U+2039,U+203A,U+20AC,U+2122,U+2190-2193,U+2212,' +
      'U+2248,U+2264,U+2265', '--layout-features=kern,liga,tnum,lnum', '--flavor=woff2', '--output-file=' + at + '/f'],
    { stdio: ['ignore', 'ignore', 'ignore'] });
    return `@font-face { font-family: "Lato"; font-weight: ${weight}; src: url(data:font/woff2;base64,` +
      readFileSync(at + '/f').toString('base64') + ') format("woff2"); }\n';
  } finally { rmSync(at, { recursive: true }); }
}

// A browser reads many short texts in two thirds of the time that one long text takes it. 60,000 letters: whole bytes.
function inPieces(text) {
  let all = '';
  for (let i = 0; i < text.length; i += 60000)
    all += `<script type="text/plain" class="core">${text.slice(i, i + 60000)}</script>\n`;
  return all;
}

// Only this script runs, by its fingerprint; workers are made of text that the page holds; nothing is fetched from
// anywhere.
const fingerprint = 'sha256-' + createHash('sha256').update(script).digest('base64');
const policy = [
  "default-src 'none'", `script-src '${fingerprint}' 'wasm-unsafe-eval'`, 'worker-src blob:',
    "style-src 'unsafe-inline'",
  'img-src data: blob:', 'font-src data:', "connect-src 'none'", "base-uri 'none'", "form-action 'none'",
].join('; ');

const parts = {
  CSP: policy, FACE: face('Lato-Regular.ttf', 400) + face('Lato-Bold.ttf', 700), CSS: read('page.css'),
  SCENE: read('first.toml'), EXAMPLES: JSON.stringify(examples), WORKER: worker, SCRIPT: script,
  CORE: inPieces(gzipSync(readFileSync(core), { level: 9 }).toString('base64')),
};
const page = read('page.html').replace(/@([A-Z]+)@/g, (_, name) => parts[name]);
writeFileSync(out, page);
console.log(`${out}: ${(page.length / 1e6).toFixed(2)} MB`);
