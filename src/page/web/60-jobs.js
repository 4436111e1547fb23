// What a finisher decides and does with the boards: target, coats, match, amounts, photograph, paper.

function panel(id, title, ...children) {
  const body = make('div', { class: 'body' }, make('h2', { text: title }), ...children);
  const p = make('div', { class: 'job', id, role: 'tabpanel', 'aria-labelledby': 'tab-' + id, hidden: true }, body);
  p.body = body;
  $('jobs').append(p);
  return p;
}

// One pane a task; which one is in sight is a tab's word.
function buildTasks() {
  const ids = ['layers', ...panels.map((p) => p.id)];
  $('tasks').replaceChildren(...ids.map((id) => make('button', { type: 'button', role: 'tab', id: 'tab-' + id,
    'data-task': id, 'aria-controls': id, text: t('task.' + id), onclick: () => turnTo(id) })));
  openTask('layers');
  roving($('tasks'), 'button', (to) => turnTo(to.dataset.task));
}
// Whoever turns to another task has read what was told.
function turnTo(id) {
  say('');
  openTask(id);
}
function openTask(id) {
  for (const b of $('tasks').children) {
    const on = b.dataset.task === id;
    b.setAttribute('aria-selected', String(on));
    b.tabIndex = on ? 0 : -1;
    $(b.dataset.task).hidden = !on;
  }
  if (!smallScreen()) $('pane').scrollTop = 0;
}

const chip = (hex, label) => make('span', { class: 'chip', style: '', 'aria-hidden': 'true', title: label || '' },
  colored(hex));
function colored(hex) {
  const i = make('i');
  i.style.background = hex;
  return i;
}

function table(head, rows, caption) {
  const t = make('table', {}, make('caption', { text: caption }));
  t.append(make('thead', {}, make('tr', {}, ...head.map((h) => make('th', { scope: 'col', text: h })))));
  const body = make('tbody');
  for (const r of rows) body.append(make('tr', {}, ...r.map((c, i) =>
    make(i === 0 ? 'th' : 'td', i === 0 ? { scope: 'row' } : {}, c))));
  t.append(body);
  return make('div', { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': caption }, t);
}

const request = (what, more = {}) => ({ do: what, text: job.text, file: job.file, ...more });

// Long work: one job at a time, its progress in its own panel.
async function work1(panelOf, out, words, run) {
  if (slow.busy && slow.busy !== 'sure') { out.replaceChildren(
    make('p', { text: t('Something else is being worked out; wait or stop it first.') })); return; }
  if (slow.busy === 'sure') { slow.restart(); await new Promise((r) => setTimeout(r)); }
  slow.busy = words;
  const bar = make('progress', { max: '1', value: '0', 'aria-label': words });
  const told = make('p', { text: words });
  const stop = make('button', { type: 'button', text: t('Stop') });
  out.replaceChildren(make('div', { class: 'row' }, bar, stop), told);
  let asked = false;
  stop.addEventListener('click', () => {
    if (asked || !run.gentle) slow.restart('stopped');
    else { asked = true; slow.stop();
      put(told, t('Stopping; what was found so far is being checked. Press again to drop it.')); }
  });
  slow.onprogress = (p) => {
    bar.value = p.progress <= 1 && p.note === undefined && run.gentle ? 0.8 + 0.2 * p.progress : p.progress;
    if (p.note === 'judged' && !asked) put(told, t('{done} of {of} ways judged, {recipes} recipes in all', p));
    if (p.note === 'checking') put(told, t('Checking the closest once more with the exact solver'));
  };
  let answer = null;
  try {
    answer = await run();
    if (answer.problems) { out.replaceChildren(problemList(answer.problems)); answer = null; }
  } catch (error) {
    out.replaceChildren(make('p', { text: error.message === 'stopped' ? t('Stopped.')
      : t('This did not work: ') + error.message }));
  }
  slow.busy = '';
  later();
  return answer;
}

// A result holds for the job it was worked out for: `basis` tells what it rests on. Once that is another, it says so
// and nothing in it can be pressed.
function result(basis, was, ...children) {
  const r = make('div', { class: 'result' }, ...children);
  r.show = holdsFor(r, basis, () => was);
  r.show();
  return r;
}
function holdsFor(r, basis, was) {
  const note = make('p', { class: 'old', text: t('This is for the job as it was: work it out again.') });
  return () => {
    const old = basis() ? basis() !== was() : false;
    if (old === r.contains(note)) return;
    if (old) r.prepend(note); else note.remove();
    for (const b of r.querySelectorAll('button')) b.disabled = old;
  };
}
const wholeJob = () => JSON.stringify([job.text, job.file]);
// What a match rests on: all but the finishes; the target's colors stand for the finish that is the target.
const allButFinishes = () => JSON.stringify([job.seen.all_but_finishes, job.file, job.seen.target_colors]);

function problemList(problems) {
  return make('ul', { class: 'problems', role: 'alert' }, ...problems.slice(0,
    8).map((p) => make('li', { text: (p.line ? t('line {n}', { n: p.line }) + ': ' : '') + p.text })));
}

// --- Coats ---
function coatsTable(c, answer) {
  const rows = c.coats.map((r, i) => {
    const worst = r.colors[answer.worst[i]];
    const remark = [c.nearest === r.coats ? t('nearest the target') : '',
      c.settled_after === r.coats ? t('more, up to {n}, is not seen', { n: c.coats[c.coats.length - 1].coats }) : '']
      .filter(Boolean).join('; ');
    return [
      make('span', { text: r.coats === 0 ? t('none') : String(r.coats) }),
      make('span', { class: 'chips' }, ...r.colors.map((x) => chip(x.hex, lightName(x.light)))),
      ...(numbers() ? [r.film_um ? fixed(r.film_um, 0) + ' µm' : '',
        answer.added_dE00[i] === null ? '' : fixed(answer.added_dE00[i], 1)] : []),
      ...(c.target ? [...(numbers() ? [fixed(worst.dE00, 1)] : []), worst.words] : []), remark];
  });
  const lights = c.coats[0].colors.map((x) => inText(lightName(x.light))).join(', ');
  const head = [t('Coats'), t('Color in {lights}', { lights }), ...(numbers() ? [t('Film'), t('This coat adds ΔE')]
    : []), ...(c.target ? [...(numbers() ? [t('To the target ΔE')] : []), t('Against the target')] : []), t('Mark')];
  return table(head, rows, t('{what} on {finish}', { what: named(c.what), finish: c.finish }));
}

function buildCoats() {
  const which = make('select', { 'aria-label': t('Which layer') });
  const out = make('div', { 'aria-live': 'polite' });
  const go = make('button', { type: 'button', class: 'go', text: t('Show 0 to 6 coats') });
  const p = panel('p-coats', t('How many coats?'), make('div', { class: 'row' },
    make('label', { class: 'pick' }, t('Layer') + ' ', which), go), out);
  go.addEventListener('click', async () => {
    await allIn();
    const was = wholeJob();
    const [finish, step] = which.value.split('.').map(Number);
    const answer = await work1(p, out, t('Working out every coat'),
      () => slow.ask(request('coats', { finish: job.seen.finishes[finish].name, step: step + 1, upto: 6 }), 60000));
    if (!answer) return;
    out.replaceChildren(result(wholeJob, was, coatsTable(JSON.parse(answer.json), answer)));
  });
  p.show = () => {
    const f = job.seen.finishes[job.chosen];
    const key = job.chosen + JSON.stringify(f.steps.map(layerName)) + f.name;
    if (which.dataset.key === key) return;
    which.dataset.key = key;
    which.replaceChildren(...f.steps.map((s, i) => make('option',
      { value: job.chosen + '.' + i, text: (i + 1) + '  ' + layerName(s) + ' (' + f.name + ')' })));
    which.value = job.chosen + '.' + (f.steps.length - 1);
    out.replaceChildren();
  };
  return p;
}

// The names of all materials at hand, by what a scene calls them.
function namesById() {
  const known = new Map();
  for (const m of Object.values(job.library).flat()) if (m.id) known.set(m.id, m.name);
  known.set(job.seen.wood.id, job.seen.wood.name);
  for (const p of job.seen.finishes.flatMap((f) => f.steps).flatMap((s) => s.parts)) known.set(p.use, p.name);
  return known;
}

// A text of the core's with names for ids.
function named(text) {
  const known = namesById();
  return text.replace(/[a-z0-9]+(-[a-z0-9]+)+/g, (id) => known.get(id) || id);
}

// A recipe by the names that materials have.
function recipeWords(steps) {
  const known = namesById(), name = (id) => known.get(id) || id.replace(/-/g, ' ');
  const part = (p, alone) => name(p.use) + (alone || p.rest ? '' : p.percent_weight !== undefined
    ? ' ' + short(p.percent_weight) + ' %' : ' ' + short(p.parts));
  return steps.map((s) => [s.mix.map((p) => part(p, s.mix.length === 1)).join(' + '),
    s.wet_g_per_m2 && t('{n} g/m² wet', { n: short(s.wet_g_per_m2) }),
    s.cut_lb && t('{n} lb cut', { n: short(s.cut_lb) }), s.sheen_gu60 !== undefined && t('gloss') + ' ' +
    short(s.sheen_gu60), s.coats > 1 && several(s.coats, 'coat')].filter(Boolean).join(', ')).join('; ');
}

// A found step as a scene writes it.
function stepKeys(s) {
  const keys = {};
  if (s.mix.length === 1 && s.mix[0].parts !== undefined) keys.use = s.mix[0].use;
  else keys.mix = s.mix;
  for (const k of ['wet_g_per_m2', 'cut_lb', 'coats', 'method', 'sheen_gu60', 'remainder', 'passes', 'toner_strength'])
    if (s[k] !== undefined) keys[k] = s[k];
  return keys;
}

// --- Amounts ---
function buildAmounts() {
  const area = numberField(t('Area'), { low: 0, value: '2' });
  const unit = make('select', { 'aria-label': t('Unit of the area') }, make('option', { value: 'm2', text: 'm²' }),
    make('option', { value: 'ft2', text: 'ft²' }));
  const scale = numberField(t('Steps of your scale, grams'), { low: 0, step: 0.1, value: withPoint('0.1') });
  const syringe = numberField(t('Steps of your syringe, millilitres'), { low: 0, step: 0.1, value: withPoint('0.5') });
  const warm = numberField(t('Temperature of the shop'), { low: -10, high: 120, value: '20' });
  const degrees = make('select', { 'aria-label': t('Unit of the temperature') }, make('option', { value: 'C', text:
    '°C' }),
    make('option', { value: 'F', text: '°F' }));
  const damp = numberField(t('Humidity of the shop, percent'), { low: 0, high: 100, value: '50' });
  const start = make('input', { type: 'text', maxlength: '20', 'aria-label': t('When the first coat goes on'),
    placeholder: '2026-03-02 08:00', autocomplete: 'off' });
  const out = make('div', { 'aria-live': 'polite' });
  const go = make('button', { type: 'button', class: 'go', text: t('Work out the amounts') });
  const p = panel('p-amounts', t('Amounts'), make('div', { class: 'row' }, make('label', { class: 'pick' },
    t('Area') + ' ', area),
    unit, go),
    make('div', { class: 'row' }, make('label', { class: 'pick' }, t('Scale, steps of (g)') + ' ', scale),
      make('label', { class: 'pick' }, t('Syringe, steps of (mL)') + ' ', syringe)),
    make('div', { class: 'row' }, make('label', { class: 'pick' }, t('Shop') + ' ', warm), degrees,
      make('label', { class: 'pick' }, t('Humidity, %') + ' ', damp)),
    make('div', { class: 'row' }, make('label', { class: 'pick' }, t('First coat at') + ' ', start)), out);
  p.ask = async () => {
    await allIn();
    const size = numberIn(area.value);
    for (const [what, field] of [[t('Area'), area], [t('Scale'), scale], [t('Syringe'), syringe],
      [t('Temperature'), warm], [t('Humidity'), damp]])
      if (Number.isNaN(numberIn(field.value))) return { problems: [{ text: what + ': ' + noNumber(field.value) }] };
    const tools = { scale_g: numberIn(scale.value), syringe_ml: numberIn(syringe.value),
      temp: numberIn(warm.value) + degrees.value, humidity: numberIn(damp.value), start: start.value.trim() };
    return { was: wholeJob(), ...await quick.answer(request('plan',
      { finish: job.chosen, area: size + unit.value, ...tools })) };
  };
  go.addEventListener('click', async () => {
    const answer = await p.ask();
    if (answer.problems) { out.replaceChildren(problemList(answer.problems)); return; }
    const plan = JSON.parse(answer.json);
    out.replaceChildren(result(wholeJob, answer.was, ...planParts(plan),
      make('button', { type: 'button', text: t('Bench card'), onclick: () => paper(answer.card, forPaper('bench card',
        wholeJob)) })));
  });
  return p;
}

function planParts(plan) {
  const amount = (v, unit) => short(v) + ' ' + unit;
  const steps = plan.steps.map((s, i) => [String(i + 1), named(s.action), s.coats + ' × ' + t(s.method),
    amount(s.mix_ml,
    'mL'),
    make('span', {}, s.measures.map((m) => named(m.material) + ' ' + amount(m.measured, m.unit)).join('; '),
      s.rounding && make('span', { class: 'sub', text: ' ' + named(s.rounding) }))]);
  const times = plan.timeline.map((c) => [c.when, t('step {step} coat {coat}', c), c.before,
    t(c.recoat_latest_h ? 'next from {from} h to {to} h' : 'next from {from} h', { from: fixed(c.recoat_earliest_h, 1),
      to: fixed(c.recoat_latest_h || 0, 0) })]);
  return [
    table([t('No.'), t('Step'), t('How'), t('Mix'), t('Measure out')], steps, plan.finish + ', ' +
      short(plan.area_m2) + ' m²'),
    table([t('When'), t('Coat'), t('First'), t('Then')], times, t('Order and waits; dry {when}', { when: plan.done })),
    table([t('Buy'), t('How much')], plan.buy.map((b) => [b.name, amount(b.amount, b.unit)]), t('To buy')),
    make('ul', {}, ...plan.notes.map((n) => make('li', { text: named(n) })),
      ...plan.cautions.map((c) => make('li', { text: c.text })))];
}

// --- Paper ---
function buildPaper() {
  const out = make('div', { 'aria-live': 'polite' });
  const size = make('select', { 'aria-label': t('Paper') }, make('option', { value: 'a4', text: 'A4' }),
    make('option', { value: 'letter', text: t('US Letter') }));
  const date = make('input', { type: 'text', maxlength: '40', 'aria-label': t('Date on the sheet'),
    placeholder: t('date') });
  const sheet = make('button', { type: 'button', class: 'go', id: 'client-sheet', text: t('Client’s sheet'), onclick:
    async () => {
    await allIn();
    out.scrollIntoView({ block: 'nearest' });
    const finishes = job.shown.map((i) => job.seen.finishes[i].name);
    const rests = forPaper('client sheet', () => JSON.stringify([wholeJob(), job.shown, job.cut, years.age]));
    const answer = await work1(p, out, t('Drawing the sheet'), () =>
      slow.run('draw', { request: request('sheet', { finishes, paper: size.value, date: date.value, cut: job.cut,
        after: years.age }) }, 120000));
    if (answer) { out.replaceChildren(); paper(answer.html, rests, answer); }
  } });
  const card = make('button', { type: 'button', class: 'go', text: t('Bench card'), onclick: async () => {
    const rests = forPaper('bench card', wholeJob), answer = await $('p-amounts').ask();
    if (answer.problems) out.replaceChildren(problemList(answer.problems));
    else { out.replaceChildren(); paper(answer.card, rests); }
  } });
  const p = panel('p-paper', t('Print'),
    make('p', { text: t('paper.what') }),
    make('p', { class: 'old', text: t('paper.english'), hidden: !t('paper.english') }),
    make('div', { class: 'row' }, sheet, size, date), out, make('div', { class: 'row' }, card), paperPlace(),
    make('p', { text: t('As a picture (PNG):') }), make('div', { class: 'row' }, ...['wall', 'board'].map((what) =>
      make('button', { type: 'button', 'data-picture': what, text: t('picture.' + what), onclick:
        () => savePicture(what) }))));
  return p;
}

// What will be printed lies in the pane, as wide as it, or at its true size to be read.
const printed = { file: '', picture: null, large: false, basis: null, was: '' };
// Of a paper that is asked for: its file's name, and what it rests on as it stands now.
const forPaper = (name, basis) => ({ file: stem() + '-' + name.replace(/[^a-z]+/g, '-'), basis, was: basis() });
function paperPlace() {
  const button = (id, text, act) => make('button', { type: 'button', id, text, onclick: act });
  const size = button('paper-size', t('True size'), () => { printed.large = !printed.large; fitPaper(); });
  const place = make('section', { id: 'paper', class: 'result', hidden: true, 'aria-label': t('What will be printed') },
    make('div', { class: 'row' },
      button('print', t('Print'), () => { $('sheet').contentWindow.focus(); $('sheet').contentWindow.print(); }),
      button('keep', t('Save as file'), () => download($('sheet').srcdoc, printed.file + '.html', 'text/html')),
      button('keep-picture', t('Save as picture'), savePaper), size),
    make('div', { class: 'page', tabindex: '0', role: 'region', 'aria-label': t('What will be printed') },
      make('iframe', { id: 'sheet', title: t('What will be printed'),
        sandbox: 'allow-same-origin allow-modals' })));
  place.show = holdsFor(place, () => printed.basis && printed.basis(), () => printed.was);
  return place;
}
function paper(html, rests, picture = null) {
  closeBox();
  openTask('p-paper');
  Object.assign(printed, rests);
  printed.picture = picture && picture.pixels ? picture : null;
  $('keep-picture').hidden = !printed.picture;
  $('paper').hidden = false;
  $('paper').show();
  $('sheet').onload = () => { fitPaper(); $('paper').scrollIntoView({ block: 'start' }); };
  $('sheet').srcdoc = html;
}
async function savePaper() {
  const { width, height, pixels } = printed.picture, canvas = make('canvas', { width, height });
  canvas.getContext('2d').putImageData(new ImageData(pixels, width, height), 0, 0);
  const name = printed.file + '.png';
  download(await markedPng(canvas, paperDots), name, 'image/png');
  say(t('picture.done', { name }));
}
// As large as the pane is wide (the paper is up to 816 pixels wide); what is printed stays as it is.
function fitPaper() {
  const sheet = $('sheet'), page = sheet && sheet.contentDocument && sheet.contentDocument.documentElement;
  if (!page || !sheet.clientWidth && !$('paper').clientWidth) return;
  sheet.removeAttribute('style');
  const room = sheet.parentElement.clientWidth, wide = Math.max(page.scrollWidth, 1);
  $('paper-size').setAttribute('aria-pressed', String(printed.large));
  sheet.style.width = wide + 'px';
  const high = page.scrollHeight, scale = printed.large ? 1 : Math.min(1, room / wide);
  sheet.style.height = high + 'px';
  sheet.style.transform = 'scale(' + scale + ')';
  sheet.style.marginBottom = (scale - 1) * high + 'px';
  sheet.style.marginRight = (scale - 1) * wide + 'px';
}

// While a paper is in sight, whatever prints the page, its own button or the browser's menu, prints that paper alone,
// on its own pages: the paper's rule for them becomes the page's.
const paperRule = make('style');
document.head.append(paperRule);
function paperAlone(on) {
  const sheet = $('sheet'), inside = on && sheet && sheet.contentDocument;
  const alone = !!inside && !$('paper').hidden && !$('p-paper').hidden;
  document.body.classList.toggle('papered', alone);
  const rule = alone && [...inside.styleSheets].flatMap((s) => [...s.cssRules]).find((r) => r instanceof
    sheet.contentWindow.CSSPageRule);
  put(paperRule, rule ? rule.cssText : '');
  if (!alone) return;
  const wide = (rule && /letter/.test(rule.cssText) ? 215.9 : 210) - 2 * (rule && parseFloat(rule.style.margin) || 0);
  document.body.style.setProperty('--paper-wide', wide + 'mm');
  const shown = sheet.getAttribute('style');
  sheet.style.width = wide + 'mm';
  sheet.style.height = '0';
  document.body.style.setProperty('--paper-high', inside.documentElement.scrollHeight + 'px');
  sheet.setAttribute('style', shown);
}
window.addEventListener('beforeprint', () => paperAlone(true));
window.addEventListener('afterprint', () => paperAlone(false));

function buildSure() {
  const p = panel('p-sure', t('How sure is this?'), make('div', { class: 'list' }));
  p.show = () => drawSure();
  return p;
}

// Beside each finish: how far real boards may lie from the color it ends in, under the light shown.
function drawSure() {
  const known = job.sure && job.sure.text === job.text;
  for (const c of columns) {
    const f = known ? job.sure.preview.finishes[c.finish] : null;
    const last = f && f.stages[f.stages.length - 1].colors.find((x) => x.light === job.light);
    const shown = f && stageOf(c.finish) === f.stages.length - 1;
    put(c.sureness, agedOf(c.finish) ? yearsLine(c.finish) : last ? (!numbers() ? job.sure.spread_words[c.finish] + '.'
      : t(shown ? '9 of 10 boards within ΔE {de} of this color'
        : 'Finished: 9 of 10 boards within ΔE {de} of its color',
        { de: fixed(last.range.dE00_90, 1) }))
      : f ? t('How sure: worked out for {lights} only', { lights: job.seen.look.lights.map((l) =>
        inText(lightName(l))).join(', ') })
      : job.unsure && job.unsure.said && job.unsure.text === job.text
        ? t('How sure: could not be worked out: {why}', job.unsure) : t('How sure: being worked out …'));
  }
  if (known) drawSureList($('p-sure') && $('p-sure').querySelector('.list'));
}

// What each finish rests on, drawn once for every answer.
function drawSureList(box) {
  if (!box || box.of === job.sure) return;
  box.of = job.sure;
  box.replaceChildren();
  job.sure.preview.finishes.forEach((f, i) => {
    const strip = make('div', { class: 'maybe', role: 'img',
      'aria-label': t('Colors that boards of {name} may turn out as, pale to dark', { name: f.name }) },
      ...(job.sure.outcomes[i] ? job.sure.outcomes[i][0].map((h) => colored(h)) : []));
    const names = namesById(), first = f.measure_next.words.match(/^(.+?) would bring this from/);
    box.append(make('h3', { text: f.name }), strip, make('p', { text: job.sure.spread_words[i] + '.' }),
      make('p', { class: 'figure', text: t('To be surer: {what}.', { what: f.measure_next.words }) }),
      first && make('p', { class: 'plain', text: t('To be surer: {what}.', { what: first[1] }) }) || '',
      make('p', { class: 'figure', text: t('Least sure of: {what}.', { what: f.spread_from.map((s) =>
        named(s.figure) + ' (ΔE ' + fixed(s.dE00, 1) + ')').join('; ') }) }),
      make('p', { text: t('rests', { what: t('rests.' + f.rests_on.mark) +
      (f.rests_on.materials.length ? ': ' + f.rests_on.materials.map((id) => names.get(id) || id.replace(/-/g,
        ' ')).join(', ') : '') }) }));
  });
}

function buildCautions() {
  const p = panel('p-cautions', t('Cautions'), make('p', { class: 'sub', text: t('paper.english'),
    hidden: !t('paper.english') }), make('ul'));
  p.show = () => {
    const list = p.body.lastChild, key = JSON.stringify(job.seen.cautions) + JSON.stringify(job.seen.warnings);
    if (list.dataset.key === key) return;
    list.dataset.key = key;
    list.replaceChildren(...job.seen.cautions.map((c) => make('li', { text: c.text })),
      ...job.seen.warnings.map((w) => make('li', { text: t('Note: ') + w.text })));
  };
  return p;
}

const panels = [];
function buildJobs() {
  panels.push(buildTarget(), buildCoats(), buildMatch(), buildBoards(), buildAmounts(), buildPhoto(), buildPaper(),
    buildSure(), buildCautions());
  buildTasks();
}
