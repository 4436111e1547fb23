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
const fixed = (v, digits) => {
  const t = v.toFixed(digits);
  return (Number(t) === 0 ? t.replace('-', '') : t).replace('-', '−');
};
const short = (v) => String(Number(v.toPrecision(4)));

function say(text) { put($('say'), text); }

// What is wrong, in the core's words.
function trouble(problems) {
  const box = $('trouble');
  box.hidden = !problems || problems.length === 0;
  box.replaceChildren();
  if (box.hidden) return;
  box.append(make('strong', { text: 'That cannot be:' }));
  const list = make('ul');
  for (const p of problems.slice(0, 6)) {
    const where = p.line ? 'line ' + p.line + ': ' : '';
    list.append(make('li', { text: where + p.text }));
  }
  box.append(list, make('button', { type: 'button', text: 'Put away', onclick: () => trouble(null) }));
}

const lightNames = {
  D65: 'Daylight', A: 'Lamp', 'LED-4000': 'LED', 'LED-2700': 'Warm LED', 'LED-5000': 'Cool LED', D50: 'Print light',
  D55: 'Noon sun', C: 'North sky', F2: 'Office tube', F7: 'Daylight tube', F11: 'Shop tube',
};
const lightName = (id) => lightNames[id] || id;
const stageNames = { bare: 'Bare', damp: 'Damp', dry: 'Dry', coated: 'Coated', finished: 'Finished' };

// A row of choices of which one holds; plain radio buttons, so that arrow keys work.
function choices(box, name, entries, chosen, onchange) {
  const legend = box.querySelector('legend');
  box.replaceChildren(legend);
  for (const [value, label, hint] of entries) {
    const input = make('input', { type: 'radio', name, value, checked: value === chosen });
    // A click comes from the arrow keys too, and also when the choice held already.
    input.addEventListener('click', () => onchange(value));
    box.append(make('label', { title: hint }, input, make('span', { text: label })));
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
    type: 'range', id, min: String(place(low)), max: String(place(high)), step: log ? 'any' : String(step), value: String(place(value)),
  });
  const number = make('input', { type: 'number', min: String(low), max: String(high), step: 'any', inputmode: 'decimal', 'aria-label': label + ', typed', value: short(value) });
  const round = (v) => Number((Math.round(v / step) * step).toPrecision(6));
  const told = (v) => slider.setAttribute('aria-valuetext', short(v) + (unit ? ' ' + unit : ''));
  told(value);
  slider.addEventListener('input', () => {
    const v = Math.min(high, Math.max(low, round(log ? Math.exp(Number(slider.value)) : Number(slider.value))));
    number.value = short(v);
    told(v);
    onchange(v, false);
  });
  slider.addEventListener('change', () => onchange(Number(number.value), true));
  if (log)
    slider.addEventListener('keydown', (e) => {
      const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 10, PageDown: -10 }[e.key];
      if (!by) return;
      e.preventDefault();
      const v = Math.min(high, Math.max(low, round(Number(number.value) + by * step)));
      slider.value = String(place(v));
      number.value = short(v);
      told(v);
      onchange(v, true);
    });
  number.addEventListener('change', () => {
    if (number.value === '' || !Number.isFinite(Number(number.value))) { e.show(e.now); return; }
    onchange(Number(number.value), true);
  });
  const e = make('div', { class: 'turn' }, make('label', { for: id, text: label }), slider, number, make('span', { class: 'unit', text: unit || '' }));
  e.now = value;
  e.show = (v) => {
    e.now = v;
    if (document.activeElement !== slider) slider.value = String(place(v));
    if (document.activeElement !== number) number.value = short(v);
    told(v);
  };
  return e;
}
turn.count = 0;
