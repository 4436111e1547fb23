// The wall: large wood, one board a place, under one light at one stage.

const look = { on: false, how: 'side', pair: [0, 1], at: 50, held: -1 };
const overlaid = () => look.on && look.how !== 'side';
const smallScreen = () => document.documentElement.clientWidth < 900 ||
  document.documentElement.clientHeight < 480;

const roomy = () => document.documentElement.clientWidth > 1200;

// What hangs where: a finish a place; under a divider two looks of one place.
function places() {
  const at = (finish) => ({ finish, ...wantedStage(finish), ...agedPlace(finish) });
  // What a finished board is compared with: bare wood, and of one that has aged itself when it was new.
  const before = years.age ? 'finished' : 'bare';
  if (!overlaid()) return job.shown.map((finish, i) => (look.held === i ? { finish, kind: before, held: true }
    : at(finish)));
  if (look.how === 'before') return [{ finish: job.chosen, kind: before }, at(job.chosen)];
  const count = job.seen ? job.seen.finishes.length : 1;
  return look.pair.map((i) => at(Math.min(i, count - 1)));
}
const placeKey = (p, i) => i + ' ' + JSON.stringify(p) + look.on + look.how;

function boardsWanted() {
  const size = boardSize(), all = places();
  return all.map((place, i) => {
    const canvas = canvasAt(i);
    return { ...place, place: placeKey(place, i), light: job.light, cut: job.cut, view: job.view,
      known: (canvas && canvas.dataset.key) || '', at_once: worksAtRest, ...size };
  });
}

const canvasAt = (i) => $('boards').children[i] && $('boards').children[i].querySelector('canvas');

// A place on the wall for each board; what hangs there is drawn later.
function hang() {
  const box = $('boards'), count = places().length;
  while (box.children.length > count) box.lastChild.remove();
  for (let i = box.children.length; i < count; ++i) {
    const b = make('button', { type: 'button', class: 'board', onclick: () => pressed(i) }, make('canvas'),
      make('i', { class: 'laid', hidden: true, 'aria-hidden': 'true' }),
      make('span', { class: 'range', hidden: true }), make('span', { class: 'range-key', hidden: true,
        text: t('years.key') }), make('span', { class: 'caption' }, make('span', { class: 'name' }),
      make('span', { class: 'sub' }, make('span', { class: 'bad' }), make('span', { class: 'at' }))));
    holdable(b, i);
    box.append(b);
  }
  box.classList.toggle('over', overlaid());
  box.classList.toggle('lying', lying());
  const side = String(overlaid() ? 1 : count);
  if (document.body.style.getPropertyValue('--boards') !== side) document.body.style.setProperty('--boards', side);
  // One stop for the keyboard: arrows go from board to board.
  const stop = Math.max(0, job.shown.indexOf(job.chosen));
  for (const [i, b] of [...box.children].entries()) b.tabIndex = i === (overlaid() ? 0 : stop) ? 0 : -1;
}

function pressed(i) {
  const place = places()[i];
  if (!place || overlaid()) return;
  choose(place.finish);
}

// Grain runs up a board that stands and along one that lies; under a divider on a wide screen it lies.
function lying() {
  if (!overlaid()) return false;
  const r = $('boards').getBoundingClientRect();
  return r.width > 1.2 * r.height;
}

// How large wood stands on the screen: millimetres of wood a CSS pixel. "True size" holds for a screen of 96 pixels an
// inch, or as the mark measures with a ruler.
const zoomSteps = [4, 2, 1, 0.63, 0.32];
const zoom = { step: 3, mark: Number(setting('mark', '50')) };
const trueMm = () => 25.4 / 96 * (zoom.mark / 50);
const mmNow = () => (zoom.step === 3 ? 0.42 * (smallScreen() ? 0.8 : 1) : trueMm() / zoomSteps[zoom.step]);

// Pixels for a first look within a frame: a lit board takes longer than an even one, many longer than few.
function boardSize() {
  hang();
  const first = canvasAt(0);
  if (!first) return {};
  // The very first picture comes sooner with fewer; every pixel follows at rest.
  const sooner = !job.seen && worksAtRest ? 0.25 : 1;
  const most = sooner * (job.view === 'flat' ? 150000 : 75000) * (places().length > 2 ? 1 : 1.5);
  return sizeOf(first, most);
}
function sizeOf(canvas, most) {
  // As laid out: what stands further back while a hand holds it changes no number of pixels.
  const wide = canvas.clientWidth, high = canvas.clientHeight, ratio = window.devicePixelRatio || 1;
  if (!wide || !high) return {};
  const scale = Math.min(ratio, Math.sqrt(most / (wide * high)), 4000 / Math.max(wide, high));
  const pixels = (v) => Math.max(16, Math.round(v * scale)), [along, across] = lying() ? [wide, high] : [high, wide];
  return { width: pixels(along), height: pixels(across), mm: mmNow() / scale };
}

// When nothing moves the boards are drawn again, a pixel for every pixel of the screen.
let fineTimer = 0, fineTurn = 0, refining = Promise.resolve();
function refineLater() {
  clearTimeout(fineTimer);
  ++fineTurn;
  delete document.body.dataset.fine;
  if (worksAtRest) fineTimer = setTimeout(() => {
    if (fresh.running) refineLater(); else refining = refine().catch((error) => console.warn(error));
  }, 180);
}
async function refine() {
  const turn = fineTurn, all = boardsWanted(), { text, file } = job;
  for (const [i, wanted] of all.entries()) {
    const canvas = canvasAt(i);
    if (!canvas || !canvas.dataset.key || canvas.dataset.fine === canvas.dataset.key) continue;
    const size = sizeOf(canvas, 4e6);
    if (size.width === wanted.width && size.height === wanted.height && !canvas.dataset.first) {
      canvas.dataset.fine = canvas.dataset.key;
      continue;
    }
    const key = canvas.dataset.key;
    const drawn = await fine.run('draw', { request: { do: 'board', text, file, ...wanted, known: '', at_once: false,
      ...size } }, 60000);
    if (turn !== fineTurn || canvas.dataset.key !== key) return;
    if (!drawn.pixels) continue;
    paint(canvas, drawn);
    delete canvas.dataset.first;
    canvas.dataset.fine = key;
  }
  if (turn === fineTurn) document.body.dataset.fine = '1';
}
// Resolves once every board is drawn as finely as it will be.
async function refined() {
  await allIn();
  if (!worksAtRest) await refine();
  for (let i = 0; i < 600 && !document.body.dataset.fine; ++i) await new Promise((r) => setTimeout(r, 50));
}

function drawSwitches() {
  const lights = lightsOffered();
  const lightKey = lights.join();
  if ($('light').dataset.key !== lightKey) {
    $('light').dataset.key = lightKey;
    const held = $('light').contains(document.activeElement);
    choices($('light'), 'light', lights.map((l) => [l, lightName(l)]), job.light,
      (v) => { job.light = v; refresh(); });
    if (held) $('light').querySelector('input:checked').focus();
  }
  showChoice($('light'), job.light);
  if (!$('stage').dataset.key) {
    $('stage').dataset.key = 'done';
    choices($('stage'), 'stage', Object.entries(stageNames), job.stage,
      (v) => { job.stage = v; job.pinned.clear(); if (v !== 'finished') years.age = ''; refresh(); });
  }
  // A board that shows what was picked on its strip does not obey the switch: then the switch says what the chosen one
  // shows.
  showChoice($('stage'), job.pinned.has(job.chosen) ? job.seen.finishes[job.chosen].stages[stageOf(job.chosen)].stage
    : job.shown.some((finish) => job.pinned.has(finish)) ? '' : job.stage);
  const wood = $('wood'), woods = job.library ? shelf('wood') : [];
  // A wood that is a reading has a line of its own: it is chosen by its file, not by name.
  const read = !woods.some((w) => w.id === job.seen.wood.id);
  // Where there is little room a wood goes by its common name alone.
  const little = !roomy(), called = (name) => (little ? name.replace(/ \([^()]*\)$/, '') : name);
  const key = JSON.stringify([woods.map((w) => w.id), read && job.seen.wood.name, little]);
  if (wood.dataset.key !== key) {
    wood.dataset.key = key;
    wood.replaceChildren(...(read ? [make('option', { value: '', text: job.seen.wood.name, 'data-own': '1' })] : []),
      ...woods.map((w) => make('option', { value: w.id, text: called(w.name) })));
  }
  wood.title = job.seen.wood.name;
  const value = read ? '' : job.seen.wood.id;
  if (document.activeElement !== wood || wood.value !== value) wood.value = value;
  $('cut').value = job.cut;
  $('view').value = job.view;
  drawZoom();
  drawYears();
}

function buildZoom() {
  const button = (label, text, act) => make('button', { type: 'button', 'aria-label': label, text, onclick: act });
  const by = (n) => () => { zoom.step = Math.max(0, Math.min(zoomSteps.length - 1, zoom.order().indexOf(zoom.step) +
    n));
    zoom.step = zoom.order()[zoom.step]; refresh(); };
  // From most wood to largest wood.
  zoom.order = () => [4, 3, 2, 1, 0];
  const less = button(t('zoom.out'), '−', by(-1)), more = button(t('zoom.in'), '+', by(1));
  const whole = button(t('zoom.true'), t('zoom.true'), () => { zoom.step = 2; refresh(); });
  const mark = make('span', { class: 'mark', role: 'img' }, make('i'), make('span'));
  $('zoom').append(mark, less, more, whole);
  zoom.show = () => {
    less.disabled = zoom.step === 4;
    more.disabled = zoom.step === 0;
    whole.setAttribute('aria-pressed', String(zoom.step === 2));
    // At true size it is the one to lay a ruler on; else a short one will do where there is little room.
    const least = roomy() || zoom.step === 2 ? 100 : 45;
    const mm = mmNow(), n = [10, 20, 50, 100, 200].find((v) => v / mm >= least) || 200;
    mark.firstChild.style.width = n / mm + 'px';
    put(mark.lastChild, n + ' mm');
    mark.setAttribute('aria-label', t('zoom.mark', { n }));
  };
}
function drawZoom() { zoom.show(); }

// More than four finishes: which of them stand on the wall.
function drawWhich() {
  const box = $('which'), names = job.seen.finishes.map((f) => f.name), key = JSON.stringify([names, job.shown]);
  box.hidden = names.length <= 4;
  if (box.hidden || box.dataset.key === key) return;
  box.dataset.key = key;
  const legend = box.querySelector('legend');
  box.replaceChildren(legend, ...names.map((n, i) => {
    const on = job.shown.includes(i);
    const b = make('input', { type: 'checkbox', checked: on,
      disabled: on ? job.shown.length < 2 : job.shown.length > 3 });
    b.addEventListener('change', () => {
      job.shown = b.checked ? [...job.shown, i].sort((x, y) => x - y) : job.shown.filter((x) => x !== i);
      if (!job.shown.includes(job.chosen)) job.chosen = job.shown[0];
      refresh();
    });
    return make('label', {}, b, make('span', { text: n }));
  }));
}

function drawBoards() {
  drawWhich();
  hang();
  places().forEach((place, i) => {
    const b = $('boards').children[i], { finish } = place;
    const f = job.seen.finishes[finish];
    if (!f) return;
    const stage = f.stages[stageAt(f, place)];
    const before = look.on && look.how === 'before' && i === 0;
    put(b.querySelector('.name'), before ? t(years.age ? 'years.new' : 'look.bare') : f.name);
    const aged = place.after ? agedOf(finish) : null;
    const bad = f.findings.some((x) => x.severity === 'failure');
    put(b.querySelector('.bad'), bad && !look.on ? '✕ ' + t('will not hold') : '');
    const picked = job.pinned.has(finish);
    put(b.querySelector('.at'), before && !years.age ? '' : look.on ? clientWords(f, stage, aged)
      : aged ? agedText(aged)
      : (picked ? t('picked: ') : '') + stageWords(stage));
    b.querySelector('.at').title = aged ? agedText(aged) : '';
    drawRange(b.querySelector('.range'), place.after ? finish : null);
    // Where there is little room the stage is named only if it is not the one that the switch says.
    b.classList.toggle('other', picked || stage.stage !== job.stage || look.on || !!aged);
    if (look.on) b.removeAttribute('aria-pressed'); else b.setAttribute('aria-pressed', String(finish === job.chosen));
    const shown = underLight((aged || stage).colors);
    const canvas = b.querySelector('canvas');
    canvas.setAttribute('role', 'img');
    canvas.setAttribute('aria-label', f.name + ', ' + (aged ? agedText(aged) : stageWords(stage)) + ', ' +
      lightName(shown.light));
    const key = placeKey(place, i), drawn = (job.seen.boards || []).find((x) => x.place === key);
    if (drawn && drawn.pixels) {
      paint(canvas, drawn);
      canvas.dataset.key = drawn.key;
      delete canvas.dataset.fine;
      if (drawn.first) canvas.dataset.first = '1'; else delete canvas.dataset.first;
      delete drawn.pixels;
    }
    if (drawn && drawn.problems) trouble(drawn.problems, t('{name} cannot be drawn:', { name: f.name }));
    b.style.setProperty('--color', shown.hex);
  });
  drawAim();
  refineLater();
}

// What a client is told below a board: what it is and how it shines.
const underLight = (colors) => colors.find((c) => c.light === job.light) || colors[0];
const agedText = (aged) => agedWords(aged) + ': ' + underLight(aged.colors).from_new_words;
function clientWords(f, stage, aged) {
  const top = f.steps.find((s) => s.top && s.sheen_gu60);
  const sheen = stage.stage === 'finished' && top ? top.sheen_gu60.word : '';
  return [stage.stage === 'finished' ? '' : stageWords(stage), sheen, aged ? agedText(aged) : ''].filter(Boolean)
    .join(' · ');
}

// The core's rows run along the grain; a board that stands is turned.
let loose = null;
function paint(canvas, drawn) {
  const { width, height } = drawn, lies = lying();
  if (!loose) loose = document.createElement('canvas');
  if (loose.width !== width || loose.height !== height) { loose.width = width; loose.height = height; }
  loose.getContext('2d').putImageData(new ImageData(drawn.pixels, width, height), 0, 0);
  const [w, h] = lies ? [width, height] : [height, width];
  if (canvas.width !== w || canvas.height !== h) { canvas.width = w; canvas.height = h; }
  const c = canvas.getContext('2d');
  if (lies) c.setTransform(1, 0, 0, 1, 0, 0); else c.setTransform(0, -1, 1, 0, 0, width);
  c.drawImage(loose, 0, 0);
}

function stageWords(stage) {
  if (stage.stage === 'finished') return t('finished');
  if (stage.stage === 'bare') return t('bare wood');
  return t(stage.stage) + (stage.stage === 'coated' && stage.coat ? ', ' + t('coat {n}', { n: stage.coat }) : '') +
    ' · ' + stage.action;
}

function choose(finish) {
  if (!job.seen.finishes[finish]) return;
  job.chosen = finish;
  drawAll();
  const b = $('boards').children[job.shown.indexOf(finish)];
  if (b && !overlaid()) slideTo(b);
}

// On a phone the boards stand in a row to be swiped: the one in sight is the one chosen.
function slideTo(b) {
  const box = $('boards');
  if (box.scrollWidth <= box.clientWidth + 4) return;
  slideTo.until = performance.now() + 700;
  box.scrollTo({ left: b.offsetLeft - box.offsetLeft - (box.clientWidth - b.offsetWidth) / 2, behavior: 'auto' });
}
slideTo.until = 0;
function swiped() {
  const box = $('boards');
  if (!job.seen || overlaid() || performance.now() < slideTo.until || box.scrollWidth <= box.clientWidth + 4) return;
  const middle = box.scrollLeft + box.clientWidth / 2;
  const far = (b) => Math.abs(b.offsetLeft - box.offsetLeft + b.offsetWidth / 2 - middle);
  const nearest = [...box.children].reduce((a, b) => (far(b) < far(a) ? b : a));
  const finish = job.shown[[...box.children].indexOf(nearest)];
  if (finish !== undefined && finish !== job.chosen) { job.chosen = finish; drawAll(); }
}

function buildWall() {
  buildZoom();
  buildYears();
  window.addEventListener('scroll', () => document.body.classList.toggle('down', window.scrollY > 120),
    { passive: true });
  let swiping = 0;
  $('boards').addEventListener('scroll', () => { clearTimeout(swiping); swiping = setTimeout(swiped, 90); });
  $('boards').addEventListener('keydown', (e) => {
    const by = { ArrowRight: 1, ArrowLeft: -1 }[e.key], all = [...$('boards').children];
    if (!by || overlaid()) return;
    const to = all[all.indexOf(document.activeElement) + by];
    if (!to) return;
    e.preventDefault();
    choose(job.shown[all.indexOf(to)]);
    $('boards').children[all.indexOf(to)].focus();
  });
}
