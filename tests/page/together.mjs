// Runs a share of the test files in one process and one browser, which then compiles the page's core once for all of
// them:
//   node together.mjs 0 2    the first of two shares
//   node together.mjs list   the files, with what they are expected to take
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

// Seconds as they were once; only how they compare matters, and only to how evenly files are shared out.
const seconds = { page: 150, alive: 72, begin: 48, look: 45, edits: 32, numbers: 29, wall: 29, learn: 28, photo: 28,
  words: 15, results: 14, stacks: 9, years: 9, firefox: 9 };
const usual = 15;
const here = fileURLToPath(new URL('.', import.meta.url));
const files = readdirSync(here).filter((f) => f.endsWith('.test.mjs')).map((f) => f.replace('.test.mjs', ''))
  .map((name) => ({ name, seconds: seconds[name] || usual }))
  .sort((a, b) => b.seconds - a.seconds || (a.name < b.name ? -1 : 1));

// Longest first, each to the share that has least.
export function shares(count) {
  const out = Array.from({ length: count }, () => ({ seconds: 0, names: [] }));
  for (const file of files) {
    const least = out.reduce((a, b) => (b.seconds < a.seconds ? b : a));
    least.seconds += file.seconds;
    least.names.push(file.name);
  }
  return out.map((s) => s.names);
}

const [which, count] = process.argv.slice(2);
if (which === 'list') {
  for (const f of files) console.log(f.name, f.seconds);
} else {
  const number = Number(which), of = Number(count);
  if (!(Number.isInteger(of) && of >= 1 && Number.isInteger(number) && number >= 0 && number < of))
    throw new Error('together.mjs wants a share and their number, 0 2 the first of two; not ' +
      [which, count].join(' '));
  for (const name of shares(of)[number]) await import(`./${name}.test.mjs`);
}
