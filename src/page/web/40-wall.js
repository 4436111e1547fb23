// The wall: large wood, one board a finish, under one light at one stage.

// A place on the wall for each finish shown; what hangs there is drawn later.
function hang() {
  const box = $('boards');
  while (box.children.length > job.shown.length) box.lastChild.remove();
  for (let i = box.children.length; i < job.shown.length; ++i)
    box.append(make('button', { type: 'button', class: 'board', onclick: () => choose(job.shown[i]) },
      make('canvas'), make('span', { class: 'name' }), make('span', { class: 'sub' }, make('span', { class: 'bad' }),
        make('span', { class: 'at' }))));
  document.body.style.setProperty('--boards', String(job.shown.length));
  document.body.style.setProperty('--count', String(Math.min(4, job.shown.length + 1)));
}

// Standing boards: the grain runs up. The pixels asked for fill the place on the wall, so that wood is as long as it is
// wide.
function boardSize() {
  hang();
  const first = $('boards').querySelector('canvas');
  if (!first) return {};
  const { width: wide, height: high } = first.getBoundingClientRect();
  const ratio = window.devicePixelRatio || 1;
  // As many pixels as can be drawn within a frame; a lit board takes longer than an even one, many finishes longer than
  // few.
  const most = (job.view === 'flat' ? 150000 : 75000) * (job.shown.length > 2 ? 1 : 1.5);
  const scale = Math.min(ratio, Math.sqrt(most / (wide * high)));
  const pixels = (v) => Math.min(1600, Math.max(16, Math.round(v * scale)));
  return { width: pixels(high), height: pixels(wide), mm: 0.42 / scale * (document.documentElement.clientWidth < 700
    ? 0.8 : 1) };
}

function drawSwitches() {
  const lights = lightsOffered();
  const lightKey = lights.join();
  if ($('light').dataset.key !== lightKey) {
    $('light').dataset.key = lightKey;
    const held = $('light').contains(document.activeElement);
    choices($('light'), 'light', lights.map((l) => [l, lightName(l), l]), job.light,
      (v) => { job.light = v; refresh(); });
    if (held) $('light').querySelector('input:checked').focus();
  }
  showChoice($('light'), job.light);
  if (!$('stage').dataset.key) {
    $('stage').dataset.key = 'done';
    choices($('stage'), 'stage', Object.entries(stageNames), job.stage,
      (v) => { job.stage = v; job.pinned.clear(); refresh(); });
  }
  // A board that shows what was picked on its strip does not obey the switch: then the switch says nothing.
  showChoice($('stage'), job.shown.some((finish) => job.pinned.has(finish)) ? '' : job.stage);
  const wood = $('wood');
  if (job.library && wood.options.length < 2) for (const w of job.library.wood) wood.append(
    make('option', { value: w.id, text: w.name }));
  const own = !job.library || !job.library.wood.some((w) => w.id === job.seen.wood.id);
  const first = wood.options[0];
  if (first && first.dataset.own && (!own || first.textContent !== job.seen.wood.name)) first.remove();
  if (own && !(wood.options[0] && wood.options[0].dataset.own)) wood.prepend(
    make('option', { value: '', text: job.seen.wood.name, 'data-own': '1' }));
  const value = own ? '' : job.seen.wood.id;
  if (document.activeElement !== wood || wood.value !== value) wood.value = value;
  $('cut').value = job.cut;
}

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
  job.shown.forEach((finish, i) => {
    const b = $('boards').children[i];
    const f = job.seen.finishes[finish];
    const stage = f.stages[stageOf(finish)];
    put(b.querySelector('.name'), f.name);
    const bad = f.findings.some((x) => x.severity === 'failure');
    put(b.querySelector('.bad'), bad ? '✕ will not hold' : '');
    const picked = job.pinned.has(finish);
    put(b.querySelector('.at'), (picked ? 'picked: ' : '') + stageWords(stage));
    // Where there is little room the stage is named only if it is not the one that the switch says.
    b.classList.toggle('other', picked || stage.stage !== job.stage);
    b.setAttribute('aria-pressed', String(finish === job.chosen));
    const shown = stage.colors.find((c) => c.light === job.light) || stage.colors[0];
    const canvas = b.querySelector('canvas');
    canvas.setAttribute('role', 'img');
    canvas.setAttribute('aria-label', f.name + ', ' + stageWords(stage) + ', ' + lightName(shown.light) +
      ': lightness ' + fixed(shown.Lab[0], 0));
    const drawn = (job.seen.boards || []).find((x) => x.finish === finish);
    if (drawn && drawn.pixels) { paint(canvas, drawn); canvas.dataset.key = drawn.key; }
    if (drawn && drawn.problems) trouble(drawn.problems, f.name + ' cannot be drawn:');
    b.style.setProperty('--color', shown.hex);
  });
}

// The core's rows run along the grain; a board on the wall stands.
let loose = null;
function paint(canvas, drawn) {
  const { width, height } = drawn;
  if (!loose) loose = document.createElement('canvas');
  if (loose.width !== width || loose.height !== height) { loose.width = width; loose.height = height; }
  loose.getContext('2d').putImageData(new ImageData(drawn.pixels, width, height), 0, 0);
  if (canvas.width !== height || canvas.height !== width) { canvas.width = height; canvas.height = width; }
  const c = canvas.getContext('2d');
  c.setTransform(0, -1, 1, 0, 0, width);
  c.drawImage(loose, 0, 0);
}

function stageWords(stage) {
  if (stage.stage === 'finished') return 'finished';
  if (stage.stage === 'bare') return 'bare wood';
  return stage.stage + (stage.stage === 'coated' && stage.coat ? ', coat ' + stage.coat : '') + ' · ' + stage.action;
}

function choose(finish) {
  if (!job.seen.finishes[finish]) return;
  job.chosen = finish;
  drawAll();
  const column = document.querySelector('.finish.chosen');
  if (column && document.documentElement.clientWidth < 900) column.scrollIntoView({ block: 'start' });
}
