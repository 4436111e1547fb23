// The target: one of the finishes, a color, or a reading under a light for an observer; and how colors are judged.

const geometries = () => [['45/0', t('geometry.45/0')], ['d/8-included', t('geometry.d/8-included')],
  ['d/8-excluded', t('geometry.d/8-excluded')]];
const observers = () => [['2deg', t('observer.2deg')], ['10deg', t('observer.10deg')]];
const select = (label, entries, more = {}) => make('select', { 'aria-label': label, ...more },
  ...entries.map(([value, text]) => make('option', { value, text })));
// Lights that have a plain name here; the job's own come first.
const lightsToChoose = () => [...new Set([...job.seen.look.lights, ...Object.keys(lightNames).filter((l) =>
  job.library.light.includes(l))])];
const lightSelect = (label) => select(label, lightsToChoose().map((id) => [id, lightName(id)]));

// Three fields for L, a and b, and what is wrong with them as they stand; nothing in any of them is no fault.
function labFields(of) {
  // A phone's keys for decimals have no minus, which a and b need.
  const fields = ['L', 'a', 'b'].map((n) => numberField(n + ' ' + of, { keys: n === 'L' ? 'decimal' : 'text' }));
  for (const f of fields) f.classList.add('lab');
  const values = () => fields.map((f) => numberIn(f.value));
  return { fields, values, empty: () => fields.every((f) => !f.value.trim()),
    wrong: () => {
      const bad = values().findIndex(Number.isNaN);
      return bad < 0 ? null : { field: fields[bad], words: 'Lab'[bad] + ' ' + of + ': ' + noNumber(fields[bad].value) };
    } };
}

// A reading as the target: its three figures, and the light and the observer that they hold for.
function readingRow() {
  const lab = labFields(t('target.of-reading')), refusal = refusalFor(lab.fields[0]);
  const light = lightSelect(t('target.light')), observer = select(t('target.observer'), observers());
  const useReading = () => {
    const bad = lab.wrong();
    refusal.tell(bad ? bad.words : '');
    if (bad) { bad.field.focus(); return; }
    change([{ do: 'table', name: 'target', keys: { lab: lab.values(), light: light.value, observer: observer.value } }],
      true, (problems) => refusal.tell(reason(problems[0].text)));
  };
  const row = make('fieldset', { class: 'row figure' }, make('legend', { text: t('target.reading') }),
    ...['L', 'a', 'b'].map((n, i) => make('label', { class: 'pick' }, n + ' ', lab.fields[i])),
    make('label', { class: 'pick' }, t('target.light') + ' ', light),
    make('label', { class: 'pick' }, t('target.observer') + ' ', observer),
    make('button', { type: 'button', text: t('target.use'), onclick: useReading }), refusal);
  row.show = (of) => {
    if (row.dataset.of === of) return;
    row.dataset.of = of;
    const { target, look: judged } = job.seen, own = target && target.lab && !target.srgb;
    light.value = own ? target.light : judged.lights[0];
    observer.value = own ? target.observer : judged.observer;
    if (own) lab.fields.forEach((f, i) => { f.value = short(target.lab[i]); });
  };
  return row;
}

// Under which lights, by which observer and in which geometry this job's colors are judged and said.
function judging() {
  const look = (key, value) => change([{ do: 'table-key', name: 'look', key, value }]);
  const observer = select(t('judge.observer'), observers()), geometry = select(t('judge.geometry'), geometries());
  observer.addEventListener('change', () => look('observer', observer.value));
  geometry.addEventListener('change', () => look('geometry', geometry.value));
  const lights = make('fieldset', { class: 'checks' }, make('legend', { text: t('judge.lights') }));
  const e = make('details', {}, make('summary', { text: t('judge') }), lights,
    make('div', { class: 'row' }, make('label', { class: 'pick' }, t('judge.observer') + ' ', observer),
      make('label', { class: 'pick' }, t('judge.geometry') + ' ', geometry)));
  const tick = (id) => {
    const b = make('input', { type: 'checkbox', value: id });
    b.addEventListener('change', () => {
      const now = job.seen.look.lights.filter((l) => l !== id);
      look('lights', b.checked ? [...now, id] : now);
    });
    return make('label', {}, b, make('span', { text: lightName(id) }));
  };
  e.show = () => {
    const now = job.seen.look, ids = lightsToChoose().sort();
    if (lights.dataset.key !== ids.join()) {
      lights.dataset.key = ids.join();
      lights.replaceChildren(lights.firstChild, ...ids.map(tick));
    }
    for (const b of lights.querySelectorAll('input')) {
      b.checked = now.lights.includes(b.value);
      b.disabled = b.checked ? now.lights.length < 2 : now.lights.length > 7;
    }
    observer.value = now.observer;
    geometry.value = now.geometry;
  };
  return e;
}

function buildTarget() {
  const list = make('select', { 'aria-label': t('target.which') });
  const color = make('input', { type: 'color', 'aria-label': t('target.screen') });
  const useColor = () => change([{ do: 'table', name: 'target', keys: { srgb: color.value } }]);
  const reading = readingRow(), judged = judging();
  const piece = select(t('target.piece'), [['same', t('target.same')], ['another', t('target.another')]]);
  piece.addEventListener('change', () => change([{ do: 'table-key', name: 'target', key: 'board',
    value: piece.value }]));
  const where = make('label', { class: 'pick' }, t('target.piece') + ' ', piece);
  const p = panel('p-target', t('target.title'),
    make('p', { class: 'now' }), make('label', { class: 'pick' }, t('target.finish') + ' ', list),
    make('div', { class: 'row' }, make('label', { class: 'pick' }, t('target.screen') + ' ', color),
      make('button', { type: 'button', text: t('target.use'), onclick: useColor })),
    reading, make('p', { class: 'sub', text: t('target.file') }), where, judged);
  list.addEventListener('change', () => change([{ do: 'table', name: 'target',
    keys: list.value === 'none' ? {} : { finish: job.seen.finishes[Number(list.value)].name } }]));
  p.show = () => {
    const { target } = job.seen;
    showTargets(list, target, job.seen.finishes.map((f) => f.name));
    reading.show(JSON.stringify([target, job.seen.look]));
    judged.show();
    where.hidden = !target;
    piece.value = target && !target.same_board ? 'another' : 'same';
    p.body.querySelector('.now').replaceChildren(...(target ? [make('span', { text: t('target.now',
      { name: target.name }) + ' ' }), ...job.seen.target_colors.map((c) => chip(c.hex, lightName(c.light))),
    make('span', { class: 'sub', text: ' ' + job.seen.target_colors.map((c) => lightName(c.light)).join(', ') })]
      : [t('target.none')]));
  };
  return p;
}

// The finishes to choose a target from, drawn again if they or it are others.
function showTargets(list, target, names) {
  const another = !!target && !target.finish;
  const key = JSON.stringify([names, target && target.finish]);
  if (list.dataset.key === key) return;
  list.dataset.key = key;
  // A target that is none of the finishes has a line of its own, so that "no target" can still be chosen.
  list.replaceChildren(...(another ? [make('option', { value: '', text: '—', disabled: true })] : []),
    make('option', { value: 'none', text: t('target.no') }),
    ...names.map((n, i) => make('option', { value: String(i), text: n })));
  list.value = another ? '' : target ? String(names.indexOf(target.finish)) : 'none';
}

// On the wall the target lies on each board as a sample laid on it, under the same light.
function drawAim() {
  const { target } = job.seen, aim = target && job.seen.target_colors.find((c) => c.light === job.light);
  $('aim').hidden = !aim || look.on;
  if (aim) $('aim').firstChild.style.background = aim.hex;
  for (const [i, b] of [...$('boards').children].entries()) {
    const laid = b.querySelector('.laid'), f = places()[i] && job.seen.finishes[places()[i].finish];
    if (!laid) continue;
    laid.hidden = !aim || look.on || !f || f.name === target.finish;
    if (aim) laid.style.background = aim.hex;
  }
}
