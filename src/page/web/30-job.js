// The job at hand: a scene's text, and what the core says of it. The text is the only truth; every change goes through the core.

const job = {
  text: '', file: 'job.toml', seen: null, shelf: null,
  light: 'D65', stage: 'finished', cut: 'flat', view: 'flat', chosen: 0,
  shown: [0, 1, 2, 3],          // finishes on the wall
  pinned: new Map(),            // finish → stage picked on its strip
  history: [], saved: '',
};

const fresh = { edits: [], running: false, again: false, base: null };

// Changes are done in the order they came; what comes while the core is busy is done together.
function change(edits, settle = true) {
  if (fresh.edits.length === 0 && !fresh.running) fresh.base = job.text;
  for (const e of edits) {
    const last = fresh.edits[fresh.edits.length - 1];
    // A slider that moved on replaces what it said before.
    const same = last && last.do === e.do && (e.do === 'set' || e.do === 'set-part') &&
      last.finish === e.finish && last.step === e.step && last.part === e.part && last.key === e.key;
    if (same) fresh.edits.pop();
    fresh.edits.push(e);
  }
  if (settle) fresh.settle = true;
  return refresh();
}

function boardsWanted() {
  const size = boardSize();
  const out = [];
  job.shown.forEach((finish, i) => {
    const canvas = $('boards').children[i] && $('boards').children[i].querySelector('canvas');
    out.push({ finish, ...wantedStage(finish), light: job.light, cut: job.cut, view: job.view, known: (canvas && canvas.dataset.key) || '', ...size });
  });
  return out;
}

let refreshed = Promise.resolve();
function refresh() {
  if (fresh.running) { fresh.again = true; return refreshed; }
  refreshed = work();
  return refreshed;
}

async function work() {
  fresh.running = true;
  do {
    fresh.again = false;
    const edits = fresh.edits, settle = fresh.settle;
    fresh.edits = [];
    fresh.settle = false;
    const began = performance.now();
    const request = { do: 'change', text: job.text, file: job.file, edits, light: job.light };
    let seen;
    try {
      seen = await quick.run('live', { request, boards: boardsWanted() }, 8000);
    } catch (error) {
      trouble([{ text: error.message }]);
      break;
    }
    if (seen.problems) {
      trouble(seen.problems);
      if (job.seen) drawAll();
      continue;
    }
    trouble(null);
    if (edits.length) {
      if (job.lastSettled === undefined) job.lastSettled = job.text;
      if (settle && seen.text !== job.lastSettled) {
        job.history.push(job.lastSettled);
        if (job.history.length > 200) job.history.shift();
        job.lastSettled = seen.text;
      }
    }
    if (seen.text !== undefined) job.text = seen.text;
    job.seen = seen;
    if (letGo()) fresh.again = true;
    drawAll();
    performance.mark('drawn');
    job.took = performance.now() - began;
    later();
  } while (fresh.again || fresh.edits.length);
  fresh.running = false;
  document.body.dataset.drawn = String(Number(document.body.dataset.drawn || 0) + 1);
}

// What takes longer than a frame follows when nothing moves: how sure each color is.
let timer = 0;
function later() {
  clearTimeout(timer);
  timer = setTimeout(sure, 350);
}
let sureOf = '';
async function sure() {
  if (slow.busy || sureOf === job.text) return;
  const text = job.text;
  try {
    slow.busy = 'sure';
    const out = await slow.ask({ do: 'preview', text, file: job.file }, 60000);
    if (!out.problems) {
      sureOf = text;
      job.sure = { text, ...out, preview: JSON.parse(out.json) };
      drawSure();
    }
  } catch (error) { /* the next change asks again */ }
  if (slow.busy === 'sure') slow.busy = '';
  if (text !== job.text) later();
}

async function load(text, file, files = {}) {
  quick.hold(files);
  slow.hold(files);
  let seen;
  try {
    seen = await quick.run('live', { request: { do: 'look', text, file }, boards: [] }, 8000);
  } catch (error) {
    trouble([{ text: 'the file could not be worked out: ' + error.message }]);
    return false;
  }
  if (seen.problems) { trouble(seen.problems); return false; }
  trouble(null);
  Object.assign(job, { text, file, seen, history: [], lastSettled: text, saved: text, chosen: 0, pinned: new Map(), sure: null });
  job.shown = seen.finishes.map((_, i) => i).slice(0, 4);
  if (!lightsOffered().includes(job.light)) job.light = seen.look.lights[0];
  structure = '';
  await refresh();
  return true;
}

function undo() {
  if (!job.history.length) return;
  const text = job.history.pop();
  job.text = text;
  job.lastSettled = text;
  job.shown = job.shown.filter((_, i) => i < 4);
  structure = '';
  refresh().then(fitShown);
}

function lightsOffered() {
  const own = job.seen ? job.seen.look.lights : [];
  return [...own, ...['D65', 'A', 'LED-4000'].filter((l) => !own.includes(l))];
}

// The stage a board shows: the one picked on its strip, else the last of the kind that the switch says, else the last before it.
function wantedStage(finish) {
  if (job.pinned.has(finish)) return { stage: job.pinned.get(finish).stage };
  return { kind: job.stage };
}

// A picked stage is let go as soon as its finish has other layers or coats: its number then means another stage.
const stagesOf = (f) => JSON.stringify([f.stages.map((s) => [s.stage, s.after_step, s.coat]), f.steps.map((s) => s.parts.map((p) => p.use))]);
function letGo() {
  const before = job.pinned.size;
  for (const [finish, pick] of job.pinned)
    if (!job.seen.finishes[finish] || stagesOf(job.seen.finishes[finish]) !== pick.of) job.pinned.delete(finish);
  return job.pinned.size < before;
}

function stageOf(finish) {
  const stages = job.seen.finishes[finish].stages;
  const wanted = wantedStage(finish);
  if (wanted.stage !== undefined) return Math.min(wanted.stage, stages.length - 1);
  for (let i = stages.length - 1; i >= 0; --i) if (stages[i].stage === wanted.kind) return i;
  return wanted.kind === 'coated' ? stages.length - 1 : 0;
}

function fitShown() {
  const count = job.seen.finishes.length;
  job.shown = job.shown.filter((i) => i < count);
  for (let i = 0; i < count && job.shown.length < Math.min(4, count); ++i) if (!job.shown.includes(i)) job.shown.push(i);
  job.chosen = Math.min(job.chosen, count - 1);
  structure = '';
  drawAll();
}
