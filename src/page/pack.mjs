// Puts the page together: one file with its style, its scripts and the core, and a policy that forbids it all network.
//   node pack.mjs CORE.wasm OUT.html
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';

const [core, out] = process.argv.slice(2);
const folder = new URL('web/', import.meta.url);
const read = (name) => readFileSync(new URL(name, folder), 'utf8');

const scripts = readdirSync(folder).filter((n) => /^\d\d-.*\.js$/.test(n)).sort();
const script = "\n'use strict';\n(() => {\n" + scripts.map(read).join('\n') + '})();\n';
const worker = read('worker.js');
for (const [name, text] of [['the scripts', script], ['the worker', worker], ['the first scene', read('first.toml')]])
  if (/<\/script|<!--/i.test(text)) throw new Error(name + ' would end the script element it lies in');

// Only this script runs, by its fingerprint; workers are made of text that the page holds; nothing is fetched from
// anywhere.
const fingerprint = 'sha256-' + createHash('sha256').update(script).digest('base64');
const policy = [
  "default-src 'none'", `script-src '${fingerprint}' 'wasm-unsafe-eval'`, 'worker-src blob:',
    "style-src 'unsafe-inline'",
  'img-src data: blob:', "connect-src 'none'", "base-uri 'none'", "form-action 'none'",
].join('; ');

const parts = {
  CSP: policy, CSS: read('page.css'), SCENE: read('first.toml'), WORKER: worker, SCRIPT: script,
  CORE: gzipSync(readFileSync(core), { level: 9 }).toString('base64'),
};
const page = read('page.html').replace(/@([A-Z]+)@/g, (_, name) => parts[name]);
writeFileSync(out, page);
console.log(`${out}: ${(page.length / 1e6).toFixed(2)} MB`);
