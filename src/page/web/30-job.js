// The job at hand: a scene's text, and what the core says of it. The text is the only truth; every change goes through
// the core.

const job = {
  text: '', file: 'job.toml', files: {}, seen: null, library: null,
  light: 'D65', stage: 'finished', cut: 'flat', view: 'flat', chosen: 0,
  shown: [0, 1, 2, 3],          // finishes on the wall
  pinned: new Map(),            // finish → stage picked on its strip
  lastSettled: '',              // the text without what a slider under way says
  history: [], future: [],      // what was before, and what Undo left
  saved: new Set(),             // texts that lie in a file
};

// What is being done, and what waits: changes, a file to open, undo, redo. `whole` counts the times that the whole job
// became another.
const fresh = { steps: [], doing: [], running: false, again: false, whole: 0 };

const movesOn = (a, b) => a.do === b.do && (a.do === 'set' || a.do === 'set-part') &&
  a.finish === b.finish && a.step === b.step && a.part === b.part && a.key === b.key;

// Steps are done in the order they came; changes that come while the core is busy are done together. `tell` is told why
// a change cannot be. Resolves to whether it was made.
function change(asked, settles = true, tell = refused) {
  const edits = asked.map(asItWillStand).filter(Boolean);
  if (!edits.length) return Promise.resolve(false);
  const last = fresh.steps[fresh.steps.length - 1];
  // A slider that moved on replaces what it said before.
  if (last && last.edits && last.edits.length === 1 && edits.length === 1 && movesOn(last.edits[0], edits[0])) {
    fresh.steps.pop();
    settles = settles || last.settles;
  }
  return queue({ edits, settles, tell, whole: fresh.whole, meant: outlines() });
}

// Changes that need files which come along with them: they wait their turn like any other, by themselves.
function changeWith(files, edits) {
  return queue({ edits, files, alone: true, settles: true, tell: trouble, whole: fresh.whole, meant: outlines() });
}

// A change is meant for the stacks as they are seen. Those under way may take out or move what it is for.
function asItWillStand(edit) {
  let at = edit;
  for (const s of [...fresh.doing, ...fresh.steps]) for (const done of s.edits || []) at = at && moved(at, done);
  return at;
}

// Where a change belongs once `done` is done; null if what it was for is gone.
function moved(edit, done) {
  if (edit.finish === undefined) return edit;
  if (done.do === 'remove-finish') return edit.finish === done.finish ? null
    : { ...edit, finish: edit.finish - (edit.finish > done.finish ? 1 : 0) };
  if (edit.finish !== done.finish) return edit;
  const at = { ...edit };
  if (edit.step !== undefined) at.step = stepAfter(edit.step, done);
  if (edit.place !== undefined && done.do === 'remove-step' && edit.place > done.step) --at.place;
  if (edit.place !== undefined && done.do === 'add-step' && edit.place >= done.place) ++at.place;
  return at.step === null ? null : at;
}
function stepAfter(step, done) {
  if (done.do === 'remove-step') return step === done.step ? null : step - (step > done.step ? 1 : 0);
  if (done.do === 'add-step') return step + (step >= done.place ? 1 : 0);
  if (done.do !== 'move-step') return step;
  if (step === done.step) return done.place;
  if (done.step < step && step <= done.place) return step - 1;
  return done.place <= step && step < done.step ? step + 1 : step;
}

// What each finish is made of: while that stays, a change by number means the same.
const outlines = () => (job.seen ? job.seen.finishes.map((f) =>
  JSON.stringify(f.steps.map((s) => s.parts.map((p) => p.use)))) : []);
const stillMeant = (s) => !s.edits || s.whole === fresh.whole ||
  s.edits.every((e) => e.finish === undefined || s.meant[e.finish] === outlines()[e.finish]);

function queue(step) {
  trouble(null);
  fresh.steps.push(step);
  return refresh().then(() => !!step.held);
}

function undo() { queue({ go: 'undo', tell: refused }); }
function redo() { queue({ go: 'redo', tell: refused }); }

// Opens a scene in place of the job at hand, which Undo brings back. `more` says whether it was made here and lies in
// no file, and the record it was kept under.
async function load(text, file, files = {}, more = {}) {
  if (job.seen) await keep();
  const { tell = trouble, ...rest } = more;
  return queue({ open: { text, file, files: { ...job.files, ...files }, ...rest }, tell });
}

// When this is done, all that was asked for is in the job, also what still stands in the field being typed in.
async function allIn() {
  const field = document.activeElement;
  if (field && field.matches('input[type=text], textarea')) field.dispatchEvent(new Event('change', { bubbles: true }));
  while (fresh.running) await refreshed;
}

let refreshed = Promise.resolve();
function refresh() {
  if (fresh.running) { fresh.again = true; return refreshed; }
  refreshed = work();
  return refreshed;
}

// All changes up to the next step of another kind, or one step; after a refusal each change by itself.
function take() {
  const together = (s) => s && s.edits && !s.alone;
  let n = Math.min(1, fresh.steps.length);
  if (together(fresh.steps[0])) while (together(fresh.steps[n])) ++n;
  return fresh.steps.splice(0, n);
}

async function work() {
  fresh.running = true;
  document.body.dataset.working = '1';
  do {
    fresh.again = false;
    fresh.doing = take();
    try {
      await carryOut(fresh.doing);
    } catch (error) {
      fault(t('The last change'), error);
    }
    fresh.doing = [];
  } while (fresh.again || fresh.steps.length);
  fresh.running = false;
  delete document.body.dataset.working;
  document.body.dataset.drawn = String(Number(document.body.dataset.drawn || 0) + 1);
}

async function carryOut(steps) {
  const to = goal(steps[0]);
  if (to === null) return;
  const lost = steps.filter((s) => !stillMeant(s)), meant = steps.filter((s) => !lost.includes(s));
  for (const s of lost) s.tell([{ text: t('the job had become another meanwhile; make this change again') }]);
  if (lost.length && !meant.length) { drawAll(); return; }
  // What was being worked out at rest is of the job as it was, and would only be in the way.
  if (slow.busy === 'sure' && (to || meant.length)) slow.restart();
  const began = performance.now();
  const { text, file } = to || job;
  const edits = to ? [] : meant.flatMap((s) => s.edits);
  const brought = !to && steps.length ? steps[0].files : null;
  if (to && to.files !== job.files) hold(to.files);
  if (brought) hold(brought);
  let seen;
  try {
    const request = { do: 'change', text, file, edits, light: job.light, after: years.age };
    // What is opened first is drawn at once; what is opened later as soon as its finishes are known.
    if (to && !job.seen) job.shown = firstShown(text);
    seen = await quick.run('live', { request, boards: to && job.seen ? []
      : attempt(t('Drawing the boards'), boardsWanted, []) }, 8000);
  } catch (error) {
    seen = { problems: [{ text: (to && to === steps[0].open ? t('the file could not be worked out: ') : '') +
      error.message }] };
  }
  if (seen.problems) {
    if (meant.length > 1) {
      // One of them cannot be; the others hold.
      for (const s of meant) s.alone = true;
      fresh.steps.unshift(...meant);
      return;
    }
    if (brought || (to && to.files !== job.files)) hold(job.files);
    if (job.seen) drawAll();
    (meant.length ? meant[0].tell : refused)(seen.problems);
    return;
  }
  for (const s of meant) s.held = true;
  fresh.doing = [];
  if (to) {
    const hung = job.shown;
    arrive(steps[0], to, seen);
    fresh.again = !seen.boards.length || seen.boards.some((b) => !b.pixels) || hung.join() !== job.shown.join();
    drawAll();
    performance.mark('drawn');
    later();
    return;
  }
  if (seen.text !== job.text) job.future = [];
  job.text = seen.text;
  if (meant.some((s) => s.settles)) settle();
  if (brought) job.files = { ...job.files, ...brought };
  const count = job.seen.finishes.length;
  job.seen = seen;
  for (const e of edits) if (e.do === 'remove-finish') renumber(e.finish);
  if (seen.finishes.length !== count) { fitShown(); fresh.again = true; }
  if (letGo()) fresh.again = true;
  drawAll();
  performance.mark('drawn');
  job.took = performance.now() - began;
  later();
}

// How many finishes a scene has, told from its text before the core has read it: places on the wall for up to four.
const firstShown = (text) => (text.match(/^\s*\[\[\s*finish\s*\]\]/gm) || []).slice(0, 4).map((_, i) => i);

// A finish is gone: those after it move up, on the wall and wherever else they are known by number.
function renumber(gone) {
  const to = (i) => (i > gone ? i - 1 : i);
  for (const map of [job.pinned, opened]) {
    const kept = [...map].filter(([i]) => i !== gone);
    map.clear();
    for (const [i, v] of kept) map.set(to(i), v);
  }
  job.shown = job.shown.filter((i) => i !== gone).map(to);
  job.chosen = to(job.chosen);
}

const state = () => ({ text: job.text, file: job.file, files: job.files, kept: keeping.id });

function remember(was) {
  job.history.push(was);
  if (job.history.length > 200) job.history.shift();
  keepLater();
}

function settle() {
  if (job.text === job.lastSettled) return;
  remember({ ...state(), text: job.lastSettled });
  job.lastSettled = job.text;
}

// The whole state that a step leads to; none for changes, null where there is nothing to go to.
function goal(step) {
  if (!step || step.edits) return undefined;
  settle();
  if (step.open) return step.open;
  const from = step.go === 'undo' ? job.history : job.future;
  return from.length ? from[from.length - 1] : null;
}

function arrive({ go }, to, seen) {
  const other = to.files !== job.files;  // each file opened brings its own
  if (go === 'undo') {
    job.history.pop();
    job.future.push(state());
  } else if (job.seen) remember(state());
  if (go === 'redo') job.future.pop();
  if (!go) {
    job.future = [];
    if (!to.made) job.saved.add(to.text);
    beginKeeping(to.text, to.made, to.record);
  }
  ++fresh.whole;
  if (go && to.kept !== keeping.id) {
    keep();
    keeping.id = to.kept;
  }
  Object.assign(job, { text: to.text, file: to.file, files: to.files }, { seen, lastSettled: to.text });
  keepLater();
  if (other) Object.assign(job, { sure: null, chosen: 0, pinned: new Map(), shown: [] });
  if (other) years.age = '';
  if (!lightsOffered().includes(job.light)) job.light = seen.look.lights[0];
  fitShown();
  if (go && other) say(t(go === 'undo' ? '{name} is back; Redo opens the other again.' : '{name} is back.',
    { name: job.file }));
}

// A core keeps what it worked out from readings of a name; where others come under that name, it is started again.
function hold(files) {
  for (const core of [quick, slow, fine]) {
    if (Object.keys(files).some((n) => n in core.files && core.files[n] !== files[n])) core.restart();
    core.hold(files);
  }
}

// What takes longer than a frame follows when nothing moves: how sure each color is.
let timer = 0;
function later() {
  clearTimeout(timer);
  if (!worksAtRest) return;
  timer = setTimeout(async () => {
    await refining;
    if (fresh.running) later(); else await sure().then(askYears);
  }, 350);
}
async function sure() {
  if (slow.busy || (job.sure && job.sure.text === job.text)) return;
  const { text, file, files } = job;
  try {
    slow.busy = 'sure';
    const out = await slow.ask({ do: 'preview', text, file }, 60000);
    if (out.problems) unsure(text, out.problems[0].text);
    else if (files === job.files) {
      job.sure = { text, ...out, preview: JSON.parse(out.json) };
      drawSure();
    }
  } catch (error) { if (error.message === 'stopped') later(); else unsure(text, error.message); }
  if (slow.busy === 'sure') slow.busy = '';
  if (text !== job.text || files !== job.files) later();
}

// It did not come about: asked once more, then said. The next change asks again.
function unsure(text, why) {
  const again = !job.unsure || job.unsure.text !== text;
  job.unsure = { text, why, said: !again };
  if (again) later(); else drawSure();
}

// What there is to choose from of a kind: the library, and what the job brought along.
const shelf = (kind) => [...job.library[kind], ...((job.seen && job.seen.own[kind]) || []).filter((m) =>
  !job.library[kind].some((other) => other.id === m.id))];

function lightsOffered() {
  const own = job.seen ? job.seen.look.lights : [];
  return [...own, ...['D65', 'A', 'LED-4000'].filter((l) => !own.includes(l))];
}

// The stage a board shows: the one picked on its strip, else the last of the kind that the switch says, else the last
// before it.
function wantedStage(finish) {
  if (job.pinned.has(finish)) return { stage: job.pinned.get(finish).stage };
  return { kind: job.stage };
}

// A picked stage is let go as soon as its finish has other layers or coats: its number then means another stage.
const stagesOf = (f) => JSON.stringify([f.stages.map((s) => [s.stage, s.after_step, s.coat]),
  f.steps.map((s) => s.parts.map((p) => p.use))]);
function letGo() {
  const before = job.pinned.size;
  for (const [finish, pick] of job.pinned)
    if (!job.seen.finishes[finish] || stagesOf(job.seen.finishes[finish]) !== pick.of) job.pinned.delete(finish);
  return job.pinned.size < before;
}

const stageOf = (finish) => stageAt(job.seen.finishes[finish], wantedStage(finish));
function stageAt({ stages }, wanted) {
  if (wanted.stage !== undefined) return Math.min(wanted.stage, stages.length - 1);
  for (let i = stages.length - 1; i >= 0; --i) if (stages[i].stage === wanted.kind) return i;
  return wanted.kind === 'coated' ? stages.length - 1 : 0;
}

// After finishes have come or gone: up to four of those there are stand on the wall.
function fitShown() {
  const count = job.seen.finishes.length;
  job.shown = job.shown.filter((i) => i < count).slice(0, 4);
  for (let i = 0; i < count && job.shown.length < Math.min(4, count);
    ++i) if (!job.shown.includes(i)) job.shown.push(i);
  job.chosen = Math.max(0, Math.min(job.chosen, count - 1));
  structure = '';
}
