// The benchmarks' JSON as one page: report.mjs RAW PROGRAM FOLDER reads RAW (Google Benchmark), runs PROGRAM for its
// peak memory, and writes FOLDER/bench.md and FOLDER/bench.json; an earlier FOLDER/bench.json is what it compares with.
import { execFileSync, spawn } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';

const [raw_file, program, folder] = process.argv.slice(2);
const here = new URL('.', import.meta.url);
const raw = JSON.parse(readFileSync(raw_file, 'utf8'));
const wanted = JSON.parse(readFileSync(new URL('wanted.json', here), 'utf8'));
const ns = { ns: 1, us: 1e3, ms: 1e6, s: 1e9 };

// The least of the repetitions: what else the machine does only adds.
const best = new Map();
for (const b of raw.benchmarks) {
  if (b.run_type !== 'iteration' || b.error_occurred) continue;
  const name = b.run_name.replace('/real_time', '');
  const time = (b.run_name.endsWith('/real_time') ? b.real_time : b.cpu_time) * ns[b.time_unit];
  if (!best.has(name) || time < best.get(name).ns) best.set(name, { ns: time, items_per_s: b.items_per_second });
}

// A peer that is there where numpy is (the system's own python3 has what its packages bring); else nothing is told.
for (const python of ['/usr/bin/python3', 'python3']) {
  try {
    const script = new URL('two_flux.py', here).pathname;
    const told = execFileSync(python, [script], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
    for (const [name, time] of Object.entries(JSON.parse(told))) best.set(name, { ns: time });
    break;
  } catch { /* no such python3, or no numpy */ }
}

const said = (t) => {
  if (t < 1e3) return t.toFixed(0) + ' ns';
  return t < 1e6 ? (t / 1e3).toFixed(2) + ' µs' : (t / 1e6).toFixed(2) + ' ms';
};
const cell = (s) => String(s).replaceAll('|', '\\|');
const table = (head, rows) =>
  [head, head.map(() => '---'), ...rows].map((r) => '| ' + r.map(cell).join(' | ') + ' |').join('\n');

// Exponent p of time ~ size^p: least squares in logarithms.
function exponent(points) {
  const x = points.map(([size]) => Math.log(size)), y = points.map(([, time]) => Math.log(time));
  const mean = (v) => v.reduce((a, b) => a + b) / v.length;
  const mx = mean(x), my = mean(y);
  return x.reduce((s, v, i) => s + (v - mx) * (y[i] - my), 0) / x.reduce((s, v) => s + (v - mx) ** 2, 0);
}

// The most memory a run holds, MB, read from the kernel while it runs; what comes and goes within a millisecond is
// missed.
async function peak_mb(args) {
  const child = spawn(program, args, { stdio: 'ignore' });
  let most = 0, running = true;
  const end = new Promise((done) => child.on('close', (code) => { running = false; done(code); }));
  while (running) {
    try {
      const now = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'));
      if (now) most = Math.max(most, Number(now[1]) / 1024);
    } catch { /* it has just ended */ }
    await new Promise((r) => setTimeout(r, 1));
  }
  if (await end) throw new Error(`${program} ${args.join(' ')} failed`);
  return most;
}

const rows = [...best].map(([name, b]) => {
  const w = wanted.times[name] || {};
  const peer = w.peer && best.get(w.peer);
  return [name, said(b.ns), w.at_most_ns ? said(w.at_most_ns) + (b.ns <= w.at_most_ns ? ', met' : ', not met') : '',
    peer ? `${(b.ns / peer.ns).toFixed(2)} × ${w.peer}` : '',
    b.items_per_s ? (b.items_per_s / 1e6).toFixed(2) + ' M/s' : ''];
});
const growth = wanted.growth.map((g) => {
  const pattern = new RegExp('^' + g.names + '$');
  const points = [...best].map(([name, b]) => [pattern.exec(name), b]).filter(([m]) => m)
    .map(([m, b]) => [Number(m[1]), b.ns]).sort((a, b) => a[0] - b[0]);
  if (points.length < 3) return null;
  return [g.what, `${points[0][0]} to ${points.at(-1)[0]}`, exponent(points).toFixed(2), g.expected];
}).filter(Boolean);
const memory = [];
for (const args of wanted.memory) {
  const mb = await peak_mb([...args, '--out', folder + '/bench', '--quiet', '--replace']);
  memory.push(['foretone ' + args.join(' '), mb.toFixed(0) + ' MB']);
}

const kept = folder + '/bench.json';
const before = existsSync(kept) ? JSON.parse(readFileSync(kept, 'utf8')) : null;
const slower = before ? [...best].filter(([name, b]) => before.ns[name] && b.ns > 1.1 * before.ns[name])
  .map(([name, b]) => `- ${name}: ${said(before.ns[name])} → ${said(b.ns)}`) : [];
const commit = execFileSync('git', ['rev-parse', '--short', 'HEAD'], { cwd: here, encoding: 'utf8' }).trim();
const cpu = cpus()[0].model.trim();

let verdict = 'There was none.';
if (before && before.cpu !== cpu) verdict = 'The last was made on another processor: ' + before.cpu + '.';
else if (slower.length) verdict = `Slower by a tenth or more than at ${before.commit}:\n\n${slower.join('\n')}`;
else if (before) verdict = `Nothing is slower by a tenth than at ${before.commit}.`;

writeFileSync(folder + '/bench.md', `# What takes how long

Commit ${commit}; ${cpus().length} × ${cpu}. The least of three runs of each benchmark.

## Times

${table(['benchmark', 'time', 'wanted', 'beside', 'rate'], rows)}

## Growth

${growth.length ? table(['with', 'sizes', 'exponent', 'expected'], growth) : 'Too few sizes were measured.'}

## Peak memory

${table(['command', 'at most'], memory)}

## Against the last report

${verdict}
`);
const times = Object.fromEntries([...best].map(([name, b]) => [name, b.ns]));
const others = before && before.cpu === cpu ? before.ns : {};
writeFileSync(kept, JSON.stringify({ commit, cpu, ns: { ...others, ...times } }, null, 1) + '\n');
