// What is done to a finish as a whole: its name, its place among the others, a layer moved or taken off.

// A name that the page made, of the layers or for a copy, follows the layers; one that somebody typed stays.
const madeNames = new Set();
const ofLayers = (layers) => layers.join(', ').slice(0, 76);
function isMade({ name, steps }) {
  const own = ofLayers(steps.map(layerName));
  return madeNames.has(name) || name === own ||
    (name.startsWith(own + ' ') && /^\d+$/.test(name.slice(own.length + 1)));
}
// The layers as they will be, by their names, once `edit` is done.
function layersAfter(steps, edit) {
  const names = steps.map(layerName), known = namesById();
  if (edit.do === 'remove-step') names.splice(edit.step, 1);
  if (edit.do === 'move-step') names.splice(edit.place, 0, ...names.splice(edit.step, 1));
  if (edit.do === 'add-step') names.splice(edit.place, 0, edit.name);
  if (edit.key === 'mix') names[edit.step] = edit.value.filter((p) => steps[edit.step].parts.every((now) =>
    now.use !== p.use || !isLiquid(now))).map((p) => known.get(p.use) || p.use).join(' + ');
  return names;
}
// What else changes with the layers of a finish: its name, and the name that the target knows it by.
function renaming(finish, edit) {
  const f = job.seen.finishes[finish];
  if (!isMade(f)) return [];
  const name = freeName(ofLayers(layersAfter(f.steps, edit)), finish);
  if (name === f.name) return [];
  madeNames.add(name);
  return nameEdits(finish, name);
}
function nameEdits(finish, name) {
  const { target, finishes } = job.seen, edits = [{ do: 'name', finish, value: name }];
  if (target && target.finish === finishes[finish].name) edits.push(
    { do: 'table-key', name: 'target', key: 'finish', value: name });
  return edits;
}

// A change that the stack is drawn again for: `step` is the layer to go on with, and the first of its buttons that can
// be pressed
// has the focus.
async function restack(finish, edit, step, buttons, words) {
  const before = job.text, was = opened.get(finish);
  opened.set(finish, edit.do === 'remove-step' ? -1 : step);
  const { name, ...asked } = edit;
  await change([asked, ...renaming(finish, edit)]);
  if (job.text === before) { opened.set(finish, was); drawStacks(); return; }
  const found = buttons.map((b) => document.querySelector('[data-spot="' + b + finish + '.' + step + '"]')).find((b) =>
    b && !b.disabled);
  if (found) found.focus();
  say(words);
}

function moveStep(finish, step, place, button) {
  const { steps } = job.seen.finishes[finish];
  restack(finish, { do: 'move-step', finish, step, place }, place, [button, 'band'],
    t('{name} is now layer {n} of {all}.', { name: layerName(steps[step]), n: place + 1, all: steps.length }));
}

function takeOff(finish, step) {
  const { steps } = job.seen.finishes[finish];
  restack(finish, { do: 'remove-step', finish, step }, Math.max(0, step - 1), ['band'],
    t('{name} is taken off; Undo brings it back.', { name: layerName(steps[step]) }));
}

function freeName(name, own = -1) {
  const taken = job.seen.finishes.filter((f, i) => i !== own).map((f) => f.name);
  if (!taken.includes(name)) return name;
  for (let i = 2; ; ++i) if (!taken.includes(name + ' ' + i)) return name + ' ' + i;
}

function rename(finish, input) {
  const old = job.seen.finishes[finish].name, wanted = input.value.trim();
  if (!wanted || wanted === old || input.value === old) { input.value = old; return; }
  const name = freeName(wanted);
  input.value = name;
  madeNames.delete(name);
  change(nameEdits(finish, name));
}

async function addFinish() {
  const name = freeName(t('clear'));
  madeNames.add(name);
  if (!await change([{ do: 'add-finish', value: name, steps: [{ use: 'waterborne-acrylic', coats: 2,
    method: 'brush' }] }])) return;
  showFinish(job.seen.finishes.length - 1);
}
async function copyFinish(finish) {
  const name = freeName(job.seen.finishes[finish].name);
  madeNames.add(name);
  if (!await change([{ do: 'copy-finish', finish, value: name }])) return;
  showFinish(job.seen.finishes.length - 1);
}
function showFinish(finish) {
  const shown = [...job.shown.filter((i) => i !== finish), finish];
  const gone = shown.slice(0, -4).map((i) => job.seen.finishes[i].name);
  job.shown = shown.slice(-4);
  job.chosen = finish;
  structure = '';
  refresh().then(() => { const b = $('boards').children[job.shown.indexOf(job.chosen)]; if (b) slideTo(b); });
  const { name } = job.seen.finishes[finish];
  say(gone.length ? t('{name} stands on the wall; four is all it holds, so {gone} is off it and can be ticked again ' +
    'above.', { name, gone: gone.join(', ') }) : t('{name} stands on the wall.', { name }));
}
async function removeFinish(finish) {
  const name = job.seen.finishes[finish].name;
  const edits = [{ do: 'remove-finish', finish }];
  if (job.seen.target && job.seen.target.finish === name) edits.unshift({ do: 'table', name: 'target', keys: {} });
  if (await change(edits)) say(t('{name} is removed; Undo brings it back.', { name }));
}
