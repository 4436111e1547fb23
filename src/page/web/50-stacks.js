// A stack a finish, drawn as it lies on the wood: the last coat on top, the wood at the bottom.

let structure = '';
const columns = [];

// What a finish is made of, without its numbers: as long as it stays, controls stay too.
function shapeOf(f) { return JSON.stringify([f.steps.map((s) =>
  [s.parts.map((p) => [p.use, p.amount]), !!s.cut_lb, !!s.sheen_gu60, !!s.wet_g_per_m2, s.kind, s.soaks])]); }

function drawStacks() {
  const now = JSON.stringify([job.shown, job.shown.map((i) => shapeOf(job.seen.finishes[i])),
    job.seen.finishes.length, job.seen.own]);
  if (now !== structure) {
    structure = now;
    const focus = document.activeElement && document.activeElement.dataset ? document.activeElement.dataset.spot : '';
    const box = $('stacks');
    columns.length = 0;
    box.replaceChildren(...job.shown.map((finish) => column(finish)));
    if (job.shown.length < 4) box.append(make('button', { type: 'button', class: 'more', 'data-spot': 'more',
      onclick: addFinish, text: t('+ Another finish') }));
    const again = focus && document.querySelector('[data-spot="' + CSS.escape(focus) + '"]');
    if (again) again.focus();
  }
  for (const c of columns) c.show();
}

const opened = new Map();  // finish → step whose controls are out

function finishTools(finish) {
  return make('div', { class: 'row tools' },
    make('button', { type: 'button', text: t('Copy'), 'data-spot': 'copy' + finish, 'aria-label': t('Copy this finish'),
      onclick: () => copyFinish(finish) }),
    make('button', { type: 'button', text: t('Make it the target'), 'data-spot': 'aim' + finish,
      onclick: () => change([{ do: 'table', name: 'target', keys: { finish: job.seen.finishes[finish].name } }]) }),
    make('button', { type: 'button', text: t('Remove'), 'data-spot': 'gone' + finish,
      'aria-label': t('Remove this finish'),
      onclick: () => removeFinish(finish) }));
}

function column(finish) {
  const f = job.seen.finishes[finish];
  const name = make('input', { type: 'text', class: 'name', maxlength: '80', 'aria-label': t('Name of this finish'),
    autocomplete: 'off', 'data-spot': 'name' + finish });
  name.addEventListener('change', () => rename(finish, name));
  const target = make('p', { class: 'target' });
  const values = make('p', { class: 'values' });
  const strip = make('div', { class: 'strip', role: 'group', 'aria-label': t('Stages, from bare wood on') });
  const why = make('details', { class: 'why' }, make('summary'), make('p'));
  why.dye = make('details', { class: 'why' }, make('summary'), make('p'));
  const stack = make('ol', { class: 'stack', 'aria-label': t('Layers, from the top coat down to the wood') });
  const layers = [];
  stack.append(make('li', { class: 'adder' }, adder(finish)));
  for (let s = f.steps.length - 1; s >= 0; --s) {
    const l = layer(finish, s);
    layers.push(l);
    stack.append(l.element);
  }
  const wood = make('li', { class: 'layer wood' });
  stack.append(wood);
  const findings = make('div', { class: 'findings' });
  const sureness = make('p', { class: 'sure' });
  const tools = finishTools(finish);
  const element = make('article', { class: 'finish' }, make('h2', {}, name), target, strip, why,
    why.dye, stack, findings, sureness,
    values, tools);
  const c = {
    finish, element, sureness,
    show() {
      const g = job.seen.finishes[finish];
      if (!g) return;
      element.classList.toggle('chosen', finish === job.chosen);
      element.setAttribute('aria-label', t('Finish: {name}', { name: g.name }));
      if (document.activeElement !== name) name.value = g.name;
      showTarget(target, g, finish);
      showValues(values, g, finish);
      showStrip(strip, g, finish);
      showWhy(why, g, finish);
      layers.forEach((l) => l.show());
      put(wood, job.seen.wood.name);
      wood.style.setProperty('--tint', g.stages[0].colors[0].hex);
      showFindings(findings, g, finish);
      tools.lastChild.disabled = job.seen.finishes.length < 2;
      tools.lastChild.title = tools.lastChild.disabled ? t('The last finish stays: a job has at least one.') : '';
      tools.children[1].disabled = !!(job.seen.target && job.seen.target.finish === g.name);
    },
  };
  columns.push(c);
  c.show();  // now, so that what had the focus is there to get it back
  return element;
}

function showTarget(p, f, finish) {
  p.removeAttribute('title');
  const when = agedOf(finish) ? t('years.target') : '';
  p.hidden = !f.to_target;
  if (!f.to_target) { put(p, ''); return; }
  if (job.seen.target.finish === f.name) { put(p, t('This is the target')); return; }
  const worst = f.to_target[f.worst], words = t(worst.closeness) +
    (f.to_target.length > 1 ? t(', worst in {light}', { light: inText(lightName(worst.light)) }) : '') + ': ' +
    worst.words;
  put(p, when + (numbers() ? 'ΔE ' + fixed(worst.dE00, 1) + ' ' + words
    : when ? words : words[0].toUpperCase() + words.slice(1)));
  if (numbers()) p.title = f.to_target.map((d) => lightName(d.light) + ' ' + fixed(d.dE00, 2)).join(' · ');
  p.dataset.exact = JSON.stringify(f.to_target.map((d) => d.dE00));
}

function showValues(p, f, finish) {
  const stage = f.stages[stageOf(finish)], aged = agedOf(finish);
  const c = underLight((aged || stage).colors);
  p.hidden = !numbers();
  put(p, lightName(c.light) + ', ' + (aged ? agedWords(aged) : inText(stageNames[stage.stage])) + ': L ' +
    fixed(c.Lab[0], 1) + '  a ' +
    fixed(c.Lab[1], 1) + '  b ' + fixed(c.Lab[2], 1) +
    '  ' + c.hex + (c.in_gamut ? '' : ' ' + t('(more colorful than a screen shows)')));
}

function showStrip(strip, f, finish) {
  const shown = stageOf(finish);
  let coats = 0;
  while (strip.children.length > f.stages.length) strip.lastChild.remove();
  f.stages.forEach((s, i) => {
    let b = strip.children[i];
    if (!b) {
      b = make('button', { type: 'button', onclick: () => { job.pinned.set(finish,
        { stage: i, of: stagesOf(job.seen.finishes[finish]) }); refresh(); } }, make('i'), make('span'));
      strip.append(b);
      if (i === 0 && !strip.roves) { strip.roves = true; roving(strip, 'button', (to) => to.click()); }
    }
    const aged = i === f.stages.length - 1 ? agedOf(finish) : null;
    b.style.setProperty('--color', underLight((aged || s).colors).hex);
    if (s.stage === 'coated') ++coats;
    put(b.lastChild, s.stage === 'coated' ? t('coat {n}', { n: coats }) : t(aged ? aged.after : s.stage));
    b.setAttribute('aria-label', t('Show {what}', { what: stageWords(s) + (aged ? ', ' + agedWords(aged) : '') }));
    b.setAttribute('aria-pressed', String(i === shown));
    b.tabIndex = i === shown ? 0 : -1;
  });
}

// Beside the stages: why wood looks as it does at the one shown. For whoever learns, and whoever teaches.
function showWhy(e, f, finish) {
  const { stage } = f.stages[stageOf(finish)], [question, answer] = t('why.' + stage), [dye, dead] = t('why.dry');
  put(e.children[0], question);
  put(e.children[1], answer);
  // Whoever looks at another stage may wonder at the dry dye all the same.
  const dry = f.stages.find((s) => s.stage === 'dry');
  e.dye.hidden = stage === 'dry' || !dry || !f.steps.some((s) => s.parts.some((p) => p.kind === 'stock'));
  put(e.dye.children[0], dye);
  put(e.dye.children[1], dead);
}

function showFindings(box, f) {
  const key = JSON.stringify(f.findings) + JSON.stringify(f.notes);
  if (box.dataset.key === key) return;
  box.dataset.key = key;
  box.replaceChildren();
  const marks = { failure: ['✕', t('Will not hold')], warning: ['!', t('May go wrong')], note: ['i',
    t('Good to know')] };
  for (const x of f.findings) {
    const [mark, word] = marks[x.severity];
    const item = make('div', { class: 'finding ' + x.severity },
      make('p', {}, make('strong', { text: mark + ' ' + t('{word}, step {n}: ', { word, n: x.step }) }),
      x.what + ' (' + x.why + ')'));
    if (x.mends.length) item.append(make('p', { text: t('Do instead: {mends}.', { mends: x.mends.map((m) =>
      m.text).join(
      t('; or ')) }) }));
    box.append(item);
  }
}

function layerWords(s) {
  const bits = [];
  if (s.coats > 1) bits.push(several(s.coats, 'coat'));
  if (s.cut_lb) bits.push(t('{n} lb cut', { n: short(s.cut_lb.value) }));
  if (s.parts.length > 1 && s.parts.every((p) => p.amount === 'parts')) bits.push(
    s.parts.map((p) => short(p.value)).join(' : '));
  if (s.sheen_gu60 && s.top) bits.push(t(s.sheen_gu60.word) + ' ' + Math.round(s.sheen_gu60.value));
  if (s.wet_g_per_m2) bits.push(t('{n} g/m² wet', { n: short(s.wet_g_per_m2) }));
  bits.push(t({ wipe: 'wiped', brush: 'brushed', spray: 'sprayed', roll: 'rolled' }[s.method]));
  if (!s.leaves_film) bits.push(t('soaks in'));
  else if (numbers()) bits.push(fixed(s.film_um, 0) + ' µm');
  return bits.join(' · ');
}

// How long the layer below was left, and whether it was scuffed; nothing, if that is the usual.
function waitWords(s) {
  const d = s.after_days, bits = [];
  if (d !== undefined) {
    const [n, unit] = d < 1 ? [24 * d, 'hour'] : d >= 14 && d % 7 === 0 ? [d / 7, 'week'] : [d, 'day'];
    bits.push(d === 0 ? t('at once') : t('{time} later', { time: short(n) + ' ' + t(unit + (n === 1 ? '' : 's')) }));
  }
  if (s.scuff) bits.push(t('scuffed first'));
  return bits.join(' · ');
}

const isLiquid = (p) => p.kind === 'liquid';
// As near to no color on white paper as the eye tells: a step of L* 2 at most.
const isClear = (s) => /^#(f[9a-f]){3}$/i.test(s.tint || '') &&
  s.parts.every((p) => isLiquid(p) || ['film', 'oil', 'wax'].includes(p.kind));
const layerName = (s) => s.parts.filter((p) => !isLiquid(p)).map((p) => p.name).join(' + ') || s.parts[0].name;

const amountUnits = { parts: t('parts'), percent_weight: '%', percent_volume: '%', g_per_l: 'g/L' };

// Every part of a mix that can be turned: [the control, what it shows of the step as it is now].
function partTurns(finish, step) {
  const { parts } = job.seen.finishes[finish].steps[step];
  if (parts.length < 2) return [];
  return parts.map((p, i) => [p, i]).filter(([p]) => p.amount !== 'rest').map(([p, i]) => {
    const inParts = p.amount === 'parts', fine = inParts ? (isLiquid(p) ? 1 : 0.1) : 0.001;
    const control = turn({
      label: isLiquid(p) ? t('{name} to thin it', { name: p.name }) : p.name,
        unit: amountUnits[p.amount] || p.amount.replace(/_/g, ' '),
      low: fine, high: inParts ? (isLiquid(p) ? 200 : 20) : Math.max(5, 4 * p.value), step: fine, log: true,
        value: p.value,
      onchange: (v, settles, tell) => change([{ do: 'set-part', finish, step, part: i, key: p.amount, value: v }],
        settles, tell),
    });
    return [control, (now) => now.parts[i] && now.parts[i].value];
  });
}

// The same of the step as a whole: wet amount, coats, cut and sheen, where it has them.
function stepTurns(s, set) {
  const turns = [];
  const add = (key, label, unit, value, range, now) =>
    turns.push([turn({ label, unit, ...range, value, onchange: set(key) }), now]);
  if (s.wet_g_per_m2) add('wet_g_per_m2', t('Wet amount'), 'g/m²', s.wet_g_per_m2,
    { low: 1, high: 500, step: 1, log: true }, (now) => now.wet_g_per_m2);
  add('coats', t('Coats'), '', s.coats, { low: 1, high: 10, step: 1 }, (now) => now.coats);
  if (s.cut_lb) add('cut_lb', t('Cut'), 'lb/gal', s.cut_lb.value, { low: 0.25, high: 4, step: 0.25 },
    (now) => now.cut_lb.value);
  if (s.sheen_gu60 && s.top) add('sheen_gu60', t('Sheen'), t('gloss'), s.sheen_gu60.value, { low: 1, high: 95,
    step: 1 },
    (now) => now.sheen_gu60.value);
  return turns;
}

// How a layer is put on, and where it lies: one row.
function layerTools(finish, step) {
  const spot = finish + '.' + step, count = job.seen.finishes[finish].steps.length;
  const method = make('select', { 'aria-label': t('How it is put on') },
    ...['wipe', 'brush', 'spray', 'roll'].map((m) => make('option', { value: m, text: t(m) })));
  method.addEventListener('change', () => change([{ do: 'set', finish, step, key: 'method', value: method.value }]));
  const row = make('div', { class: 'row' }, make('label', { class: 'pick' }, t('Put on: '), method),
    make('button', { type: 'button', text: '↑', 'data-spot': 'up' + spot, 'aria-label': t('Move this layer up'),
      disabled: step === count - 1, onclick: () => moveStep(finish, step, step + 1, 'up') }),
    make('button', { type: 'button', text: '↓', 'data-spot': 'down' + spot, 'aria-label': t('Move this layer down'),
      disabled: step === 0, onclick: () => moveStep(finish, step, step - 1, 'down') }),
    make('button', { type: 'button', text: t('Take off'), 'aria-label': t('Take off this layer'), disabled: count === 1,
      title: count === 1 ? t('The last layer stays: add another first, or remove the finish.') : undefined,
      onclick: () => takeOff(finish, step) }));
  return { row, method };
}

function layer(finish, step) {
  const spot = finish + '.' + step;
  const name = make('span', { class: 'what' }), sub = make('span', { class: 'sub' });
  const button = make('button', { type: 'button', class: 'band', 'data-spot': 'band' + spot },
    make('i', { class: 'film', 'aria-hidden': 'true', 'data-clear': t('clear') }),
    make('span', { class: 'words' }, name, sub));
  const body = make('div', { class: 'controls', hidden: true });
  const wait = make('p', { class: 'wait', hidden: true });
  const li = make('li', { class: 'layer' }, button, body, wait);
  const turns = [];
  const set = (key) => (v, settles, tell) => change([{ do: 'set', finish, step, key, value: v }], settles, tell);
  button.addEventListener('click', () => {
    const out = opened.get(finish) === step;
    opened.set(finish, out ? -1 : step);
    drawStacks();
  });

  function build() {
    const s = job.seen.finishes[finish].steps[step];
    turns.push(...partTurns(finish, step), ...stepTurns(s, set));
    turns.forEach(([t], i) => { t.slider.dataset.spot = 'turn' + spot + '.' + i; });
    const before = step > 0 && waiting(s, set), mix = mixing(finish, step), { row, method } = layerTools(finish, step);
    body.append(...turns.map(([t]) => t), ...[mix, before].filter(Boolean), row);
    body.method = method;
    body.before = before;
  }

  return {
    element: li,
    show() {
      const s = job.seen.finishes[finish].steps[step];
      put(name, (step + 1) + '  ' + layerName(s));
      put(sub, layerWords(s));
      li.style.setProperty('--tint', s.tint || '#fff');
      li.style.setProperty('--thick', s.soaks ? '0px' : Math.round(Math.min(70, s.film_um * 0.7)) + 'px');
      li.style.setProperty('--wood', job.seen.finishes[finish].stages[0].colors[0].hex);
      li.classList.toggle('soaks', !!s.soaks);
      li.classList.toggle('clear', isClear(s));
      put(wait, waitWords(s));
      wait.hidden = wait.textContent === '';
      const out = opened.get(finish) === step;
      button.setAttribute('aria-expanded', String(out));
      if (out && !body.childElementCount) build();
      body.hidden = !out;
      if (!out) return;
      for (const [t, of] of turns) { const v = of(s); if (v !== undefined) t.show(v); }
      if (document.activeElement !== body.method) body.method.value = s.method;
      if (body.before) body.before.show(s);
    },
  };
}

// A mix of dyes: one more of them, one less.
function mixing(finish, step) {
  const spot = finish + '.' + step, now = () => job.seen.finishes[finish].steps[step].parts;
  const dyes = now().filter((p) => p.kind === 'stock');
  if (now().length < 2 || !dyes.length || !job.library) return null;
  const write = (parts, words) => restack(finish, {
    do: 'set', finish, step, key: 'mix', value: parts.map((p) =>
      ({ use: p.use, [p.amount]: p.amount === 'rest' || p.value })),
  }, step, ['mix'], t(words));
  const entry = (does, m) => make('option', { value: m.use, 'data-does': does, text: t(does + ' {name}',
    { name: m.name }) });
  const select = make('select', { 'aria-label': t('Dyes in this mix'), 'data-spot': 'mix' + spot },
    make('option', { value: '', text: t('± Dyes …') }),
    ...shelf('stock').filter((m) => !now().some((p) => p.use === m.id)).map((m) =>
      entry('mix in', { use: m.id, name: m.name })),
    ...(dyes.length > 1 ? dyes.map((p) => entry('leave out', p)) : []));
  const go = make('button', { type: 'button', text: t('Change'), 'aria-label': t('Change the dyes in this mix'),
    onclick: () => {
    const use = select.value, { does } = select.selectedOptions[0].dataset,
      last = now().findLastIndex((p) => p.kind === 'stock');
    // As much of it as of the last dye there.
    if (does === 'mix in') write(now().toSpliced(last + 1, 0, { ...now()[last], use }), 'The dye is mixed in.');
    if (does === 'leave out') write(now().filter((p) => p.use !== use), 'The dye is left out of the mix.');
  } });
  return make('div', { class: 'row' }, select, go);
}

// What is done before a layer goes on: the days it waits, and scuffing.
function waiting(s, set) {
  const days = numberField(t('Days after the layer below'), { low: 0, high: 3650 });
  days.placeholder = t('usual');
  const scuff = make('input', { type: 'checkbox' });
  days.addEventListener('change', () => {
    const usual = days.value.trim() === '', v = usual ? null : numberIn(days.value);
    if (!usual && !(v >= 0 && v <= 3650)) { e.write(); say(t('The wait is 0 to 3650 days.')); return; }
    set('after_days')(v, true);
  });
  scuff.addEventListener('change', () => set('scuff')(scuff.checked || null, true));
  const e = make('div', { class: 'checks' }, make('label', {}, t('Days after the layer below') + ' ', days),
    make('label', {}, scuff, t('Scuff the layer below first')));
  e.write = () => { days.value = e.now.after_days === undefined ? '' : withPoint(String(e.now.after_days)); };
  e.show = (now) => {
    e.now = now;
    if (document.activeElement !== days) e.write();
    scuff.checked = !!now.scuff;
  };
  return e;
}

// Every kind of material as a short list.
function layerKinds(finish) {
  const select = make('select', { 'aria-label': t('Another layer'), 'data-spot': 'add' + finish },
    make('option', { value: '', text: t('+ Another layer …') }));
  const groups = [['stock', 'Dye'], ['oil', 'Oil'], ['film', 'Shellac, lacquer, varnish'], ['wax', 'Wax'],
    ['stain', 'Stain'], ['gel-stain', 'Gel stain'], ['glaze', 'Glaze'], ['toner', 'Toner'],
    ['grain-filler', 'Grain filler'], ['liming', 'Liming'], ['treatment', 'What changes the wood itself']];
  for (const [kind, label] of job.library ? groups : []) {
    if (!shelf(kind).length) continue;
    const group = make('optgroup', { label: t(label) });
    for (const m of shelf(kind)) group.append(make('option', { value: kind + '/' + m.id, text: m.name }));
    select.append(group);
  }
  return select;
}

// Where another layer may go, the top first.
function layerPlaces(steps) {
  return make('select', { 'aria-label': t('Where it goes') },
    ...steps.map((s, i) => make('option', { value: String(i + 1),
      text: i === steps.length - 1 ? t('on top') : t('over {layer}', { layer: (i + 1) + '  ' +
        layerName(s) }) })).reverse(),
    make('option', { value: '0', text: t('on the bare wood') }));
}

// Where a layer belongs: dye on wood, oil over it, films over oil, wax last. It goes below the first layer of a later
// kind.
const layerOrder = ['treatment', 'stock', 'stain', 'gel-stain', 'grain-filler', 'oil', 'liming', 'glaze', 'toner',
  'film', 'wax'];
function belongs(kind, steps) {
  const rank = (s) => Math.max(0, ...s.parts.map((p) => layerOrder.indexOf(p.kind)));
  const above = steps.findIndex((s) => rank(s) > layerOrder.indexOf(kind));
  return above < 0 ? steps.length : above;
}

// "Another layer": every kind of material as a short list, then where it goes.
function adder(finish) {
  const { steps } = job.seen.finishes[finish];
  const select = layerKinds(finish), where = layerPlaces(steps);
  const add = make('button', { type: 'button', text: t('Add'), 'aria-label': t('Add this layer') });
  const then = make('div', { class: 'row', hidden: true }, where, add);
  const chosen = () => {
    const [kind, id] = select.value.split('/');
    return kind && { kind, ...shelf(kind).find((m) => m.id === id) };
  };
  select.addEventListener('change', () => {
    const m = chosen();
    then.hidden = !m;
    where.value = String(m ? belongs(m.kind, steps) : steps.length);
  });
  add.addEventListener('click', () => {
    const m = chosen(), place = Number(where.value);
    restack(finish, { do: 'add-step', finish, place, keys: m.step, name: m.name }, place, ['band'],
      place < steps.length ? t('{name} is added under {other}.', { name: m.name, other: layerName(steps[place]) })
        : t('{name} is added on top.', { name: m.name }));
  });
  return make('div', {}, select, then);
}
