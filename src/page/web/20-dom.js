// Small helpers for building the page. Text goes in as text, never as markup.

const $ = (id) => document.getElementById(id);

// make('button', {class: 'x', onclick: f}, 'text', child, ...)
function make(tag, options = {}, ...children) {
  const e = document.createElement(tag);
  for (const [key, value] of Object.entries(options)) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith('on')) e.addEventListener(key.slice(2), value);
    else if (key === 'class') e.className = value;
    else if (key === 'text') e.textContent = value;
    else if (key in e && key !== 'list' && typeof value !== 'string') e[key] = value;
    else e.setAttribute(key, value === true ? '' : value);
  }
  e.append(...children.filter((c) => c !== null && c !== undefined && c !== false));
  return e;
}

const put = (e, text) => { if (e.textContent !== text) e.textContent = text; };
const withPoint = (s) => (decimalSign === '.' ? s : s.replace('.', decimalSign));
const fixed = (v, digits) => {
  const s = v.toFixed(digits);
  return withPoint((Number(s) === 0 ? s.replace('-', '') : s).replace('-', '−'));
};
const short = (v) => withPoint(String(Number(v.toPrecision(4))));

// What is told holds for the job as it stands: it goes with the next change, and when something else goes wrong.
function say(text) {
  put($('say'), text);
  say.of = job.text;
}
function unsay() { if ($('say').textContent && say.of !== job.text) say(''); }

// A number as people write it, with a point or a comma: 1.5 or 1,5. NaN for all that is not sure: 1.000,5, and 1,000 or
// 1.000 with the sign that is not the language's own, may be either.
function numberIn(text) {
  const s = text.trim().replace('−', '-'), thousands = decimalSign === ',' ? /^[-+]?[1-9]\d{0,2}\.\d{3}$/
    : /^[-+]?[1-9]\d{0,2},\d{3}$/;
  if (!/^[-+]?(\d+[.,]?\d*|[.,]\d+)(e[-+]?\d+)?$/i.test(s) || thousands.test(s)) return NaN;
  return Number(s.replace(',', '.'));
}
const noNumber = (text) => (text.trim() ? t('“{text}” is not one clear number; write it like 1.5 or 1,5.',
  { text: text.trim() }) : t('there is no number.'));

// A field for a number. It is a field of text, for a browser's own drops a comma without a word; up and down keys step
// it all the same.
function numberField(label, { step = 1, low = -Infinity, high = Infinity, value = '', keys = 'decimal' } = {}) {
  const e = make('input', { type: 'text', class: 'number', inputmode: keys, maxlength: '24', autocomplete: 'off',
    'aria-label': label, value });
  e.addEventListener('keydown', (k) => {
    const by = { ArrowUp: 1, ArrowDown: -1 }[k.key], v = numberIn(e.value || '0');
    if (!by || Number.isNaN(v)) return;
    k.preventDefault();
    e.value = withPoint(String(Number(Math.min(high, Math.max(low, v + by * step)).toPrecision(8))));
    for (const type of ['input', 'change']) e.dispatchEvent(new Event(type, { bubbles: true }));
  });
  return e;
}

// Beside a field: why what was given there cannot be.
const refusalFor = (field) => {
  const p = make('p', { class: 'refused', id: 'refused' + (++refusalFor.count), role: 'alert', hidden: true });
  field.setAttribute('aria-describedby', p.id);
  p.tell = (text) => { put(p, text); p.hidden = !text; };
  return p;
};
refusalFor.count = 0;

// The core's reason without the key and the figures of a file: "parts = -3 is outside 1e-04 to 10000" becomes "-3 is
// outside 0.0001 to 10000".
const reason = (text) => text.replace(/^\w+ = (?=\S+ (is outside|must be))/, '').replace(/\b\d+(\.\d+)?e[-+]\d+\b/g,
  (n) => String(Number(n)));

// A change that cannot be: whoever made it here has seen no file and no line.
function refused(problems) { trouble(problems.map((p) => ({ text: reason(p.text) }))); }

// What is wrong, in the core's words.
function trouble(problems, heading = t('That cannot be:')) {
  const box = $('trouble');
  box.hidden = !problems || problems.length === 0;
  box.replaceChildren();
  if (box.hidden) return;
  say('');
  for (const p of document.querySelectorAll('.told')) p.remove();
  box.append(make('strong', { text: heading }));
  const list = make('ul');
  for (const p of problems.slice(0, 6)) {
    const where = p.line ? t('line {n}', { n: p.line }) + ': ' : '';
    list.append(make('li', { text: where + p.text }));
  }
  box.append(list, make('button', { type: 'button', text: t('Put away'), onclick: () => trouble(null) }));
  box.scrollIntoView({ block: 'nearest' });
}

// Something went wrong in the page itself: it is shown, that one task ends, and everything else goes on.
function fault(task, error) {
  console.error(error);
  const why = error && error.message ? error.message : String(error);
  trouble([{ text: t('{task} did not work ({why}). The job is safe: go on, or Save it.', { task, why }) }],
    t('Something went wrong:'));
}

// Does it, and shows a fault instead of handing it on; `otherwise` is the answer then.
function attempt(task, act, otherwise) {
  try {
    return act();
  } catch (error) {
    fault(task, error);
    return otherwise;
  }
}

const lightNames = Object.fromEntries(Object.entries({
  D65: 'Daylight', A: 'Lamp', 'LED-4000': 'LED', 'LED-2700': 'Warm LED', 'LED-5000': 'Cool LED', D50: 'Print light',
  D55: 'Noon sun', C: 'North sky', F2: 'Office tube', F7: 'Daylight tube', F11: 'Shop tube',
}).map(([id, name]) => [id, t(name)]));
const lightName = (id) => lightNames[id] || id;
const stageNames = { bare: t('Bare'), damp: t('Damp'), dry: t('Dry'), coated: t('Coated'), finished: t('Finished') };

// A row of choices of which one holds; plain radio buttons, so that arrow keys work.
function choices(box, name, entries, chosen, onchange) {
  const legend = box.querySelector('legend');
  box.replaceChildren(legend);
  for (const [value, label] of entries) {
    const input = make('input', { type: 'radio', name, value, checked: value === chosen });
    // A click comes from the arrow keys too, and also when the choice held already.
    input.addEventListener('click', () => onchange(value));
    box.append(make('label', {}, input, make('span', { text: label })));
  }
}

// Shows which of the choices holds; none, if it is not among them.
function showChoice(box, value) {
  for (const input of box.querySelectorAll('input')) input.checked = input.value === value;
}

// A slider with the same number beside it to be typed.
function turn({ label, unit, low, high, step, value, onchange, log }) {
  const id = 'turn' + (++turn.count);
  const place = (v) => (log ? Math.log(Math.max(v, low)) : v);
  const slider = make('input', {
    type: 'range', id, min: String(place(low)), max: String(place(high)), step: log ? 'any' : String(step),
      value: String(place(value)),
  });
  const number = numberField(t('{label}, typed', { label }), { step, low, high, value: short(value) });
  const refusal = refusalFor(number);
  let written = number.value;
  const write = (v) => { number.value = written = short(v); };
  const ask = (v, settles) => {
    refusal.tell('');
    onchange(v, settles, (problems) => (e.isConnected ? refuse(reason(problems[0].text)) : refused(problems)));
  };
  // What cannot be goes back to what holds.
  const refuse = (why) => {
    slider.value = String(place(e.now));
    write(e.now);
    told(e.now);
    refusal.tell(label + ': ' + why.replace(/\.?$/, '. ') + t('It stays {value}.', { value: short(e.now) +
      withUnit(e.now) }));
  };
  const unitOf = (v) => (v === 1 && unit === t('parts') ? t('part') : unit || '');
  const withUnit = (v) => (unit ? ' ' + unitOf(v) : '');
  const round = (v) => Number((Math.round(v / step) * step).toPrecision(6));
  const beside = make('span', { class: 'unit' });
  const told = (v) => { slider.setAttribute('aria-valuetext', short(v) + withUnit(v)); put(beside, unitOf(v)); };
  told(value);
  slider.addEventListener('input', () => {
    const v = Math.min(high, Math.max(low, round(log ? Math.exp(Number(slider.value)) : Number(slider.value))));
    write(v);
    told(v);
    ask(v, false);
  });
  slider.addEventListener('change', () => ask(numberIn(number.value), true));
  if (log)
    slider.addEventListener('keydown', (e) => {
      const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 10, PageDown: -10 }[e.key];
      if (!by) return;
      e.preventDefault();
      const v = Math.min(high, Math.max(low, round(numberIn(number.value) + by * step)));
      slider.value = String(place(v));
      write(v);
      told(v);
      ask(v, true);
    });
  number.addEventListener('change', () => {
    if (number.value === written) return;
    written = number.value;
    const v = numberIn(written);
    if (Number.isNaN(v)) refuse(noNumber(written));
    else ask(v, true);
  });
  const e = make('div', { class: 'turn' }, make('label', { for: id, text: label }), slider, number,
    beside, refusal);
  e.now = value;
  e.slider = slider;
  e.show = (v) => {
    if (v !== e.now) refusal.tell('');
    e.now = v;
    if (document.activeElement !== slider) slider.value = String(place(v));
    if (document.activeElement !== number) write(v);
    told(v);
  };
  return e;
}
turn.count = 0;

// Figures are shown to those who asked for them.
const numbers = () => document.body.classList.contains('numbers');
function showNumbers(on) {
  document.body.classList.toggle('numbers', on);
  keepSetting('numbers', on ? 'on' : 'off');
  if (job.seen) drawAll();
}

// A row of which one thing is chosen and one is reached by Tab: arrows, Home and End go from one to the next.
function roving(box, which, go) {
  box.addEventListener('keydown', (e) => {
    const all = [...box.querySelectorAll(which)], at = all.indexOf(document.activeElement);
    const to = { ArrowRight: at + 1, ArrowDown: at + 1, ArrowLeft: at - 1, ArrowUp: at - 1, Home: 0,
      End: all.length - 1 }[e.key];
    if (at < 0 || to === undefined) return;
    e.preventDefault();
    const next = all[(to + all.length) % all.length];
    next.focus();
    if (go) go(next);
  });
}

// The one box for questions and choices that are not always in sight. `build` gets it empty.
function box(title, ...children) {
  const d = $('box');
  if (d.open) d.close();
  d.replaceChildren(make('form', { method: 'dialog', class: 'row head' }, make('h2', { id: 'box-title', text: title }),
    make('button', { text: t('Close') })), make('div', { class: 'body' }, ...children));
  d.showModal();
  return d;
}
const closeBox = () => { if ($('box').open) $('box').close(); };
