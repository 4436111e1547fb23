// The user's own board: a photograph with a white or grey card in it, and every finish on the wall put on that board.
// Beside the card may be marked: a second card, parts to finish, and the corners of a rectangle to be squared up. What
// is drawn on the picture stands in fields too, and what is typed there is drawn.

// A canvas of a bitmap, which is used up.
function drawn(bitmap, label) {
  const canvas = make('canvas', { role: 'img', 'aria-label': label });
  canvas.width = bitmap.width;
  canvas.height = bitmap.height;
  canvas.getContext('2d').drawImage(bitmap, 0, 0);
  bitmap.close();
  return canvas;
}

// The picture in a file; what stands against it is thrown in words. The browser decodes beside the page, and turns the
// picture upright.
async function pictureIn(file) {
  let picture;
  try {
    picture = await createImageBitmap(file);
  } catch {
    throw new Error(t('{name} is no picture that this browser opens; a JPEG or PNG is needed.', { name: file.name }));
  }
  const megapixels = picture.width * picture.height / 1e6;
  if (megapixels <= 60) return picture;
  picture.close();
  throw new Error(t('The picture has {n} megapixels; the page takes up to 60.', { n: Math.round(megapixels) }));
}

// A frame drawn over the canvas goes to `set` as [left, top, width, height] in pixels of the picture, a place touched
// to `touch` as [x, y].
function dragFrame(canvas, picture, set, touch) {
  const at = (e) => {
    const r = canvas.getBoundingClientRect();
    const bound = (v, high) => Math.round(Math.min(high, Math.max(0, v)));
    return [bound((e.clientX - r.left) / r.width * picture.width, picture.width),
      bound((e.clientY - r.top) / r.height * picture.height, picture.height)];
  };
  const still = 4;  // pixels of the screen: a finger shakes
  let from = null, down = null, begun = false;
  canvas.addEventListener('pointerdown', (e) => {
    from = at(e);
    down = [e.clientX, e.clientY];
    begun = false;
    canvas.setPointerCapture(e.pointerId);
  });
  canvas.addEventListener('pointermove', (e) => {
    if (!from || !begun && Math.hypot(e.clientX - down[0], e.clientY - down[1]) < still) return;
    const to = at(e);
    set([Math.min(from[0], to[0]), Math.min(from[1], to[1]), Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])],
      !begun);
    begun = true;
  });
  canvas.addEventListener('pointerup', () => {
    if (from && !begun) touch(from);
    from = null;
  });
  canvas.addEventListener('pointercancel', () => { from = null; });
}

// "X,Y X,Y …" as pairs; null if it is not that.
const cornersIn = (text) => (/^\d+,\d+( +\d+,\d+)*$/.test(text.trim())
  ? text.trim().split(/ +/).map((pair) => pair.split(',').map(Number)) : null);
const cornersText = (corners) => corners.map((c) => c.join(',')).join(' ');
const boxOf = (corners) => {
  const [x, y] = [0, 1].map((i) => corners.map((c) => c[i]));
  return [Math.min(...x), Math.min(...y), Math.max(...x) - Math.min(...x), Math.max(...y) - Math.min(...y)];
};
const rectangle = ([x, y, w, h]) => [[x, y], [x + w, y], [x + w, y + h], [x, y + h]];

// What is marked beside the card: `list` of fields, each {kind, field, row}, and the lines over the picture.
function otherMarks() {
  const svg = (name) => document.createElementNS('http://www.w3.org/2000/svg', name);
  const lines = svg('svg'), rows = make('div', { class: 'list' });
  lines.setAttribute('aria-hidden', 'true');
  const m = { lines, rows, list: [], picture: null, open: null };
  const names = { second: () => t('A second card, its corners in pixels'),
    part: (n) => t('Part {n} to finish, its corners in pixels', { n }),
    corners: () => t('A rectangle to square up, its four corners in pixels, the upper left first, then clockwise') };
  const least = { second: 4, part: 3, corners: 4 }, most = { second: 4, part: 64, corners: 4 };
  m.draw = () => {
    if (m.picture) lines.setAttribute('viewBox', `0 0 ${m.picture.width} ${m.picture.height}`);
    lines.replaceChildren(...m.list.flatMap(({ kind, field }) => {
      const corners = cornersIn(field.value);
      if (!corners) return [];
      return ['outer', 'inner'].map((line) => {
        const shape = svg(corners.length > 2 ? 'polygon' : 'polyline');
        shape.setAttribute('points', cornersText(corners.length > 1 ? corners : [corners[0], corners[0]]));
        shape.setAttribute('class', line + ' ' + kind);
        return shape;
      });
    }));
  };
  m.drop = (mark) => {
    m.list = m.list.filter((other) => other !== mark);
    if (m.open === mark) m.open = null;
    mark.row.remove();
    m.list.filter((other) => other.kind === 'part').forEach((other, i) => other.name(names.part(i + 1)));
    m.draw();
  };
  m.add = (kind, corners) => {
    if (kind !== 'part') m.list.filter((mark) => mark.kind === kind).forEach(m.drop);
    const field = make('input', { type: 'text', maxlength: '800', autocomplete: 'off', spellcheck: 'false' });
    const words = make('span'), away = make('button', { type: 'button', text: '×', onclick: () => m.drop(mark) });
    const row = make('div', { class: 'row' }, make('label', { class: 'marked' }, words, field), away);
    const mark = { kind, field, row };
    mark.name = (text) => {
      words.textContent = text;
      away.setAttribute('aria-label', t('Take away: ') + text);
    };
    mark.set = (to) => { field.value = cornersText(to); m.draw(); };
    mark.name(names[kind](m.list.filter((other) => other.kind === 'part').length + 1));
    field.addEventListener('input', m.draw);
    m.list.push(mark);
    rows.append(mark.row);
    mark.set(corners);
    return mark;
  };
  // A frame: a new mark as it begins, the same one as it goes on.
  m.frame = (kind, box, begins) => {
    if (begins || !m.open || m.open.kind !== kind) m.open = m.add(kind, rectangle(box));
    else m.open.set(rectangle(box));
    m.framed = true;
  };
  // A corner more of the mark that is open; a touch near its first corner ends it.
  m.touch = (kind, at) => {
    const has = m.open && m.open.kind === kind && !m.framed ? cornersIn(m.open.field.value) : null;
    const near = m.picture ? Math.max(m.picture.width, m.picture.height) / 50 : 0;
    if (has && has.length >= least[kind] && Math.hypot(at[0] - has[0][0], at[1] - has[0][1]) < near) {
      m.open = null;
      return;
    }
    if (!has || has.length >= most[kind]) m.open = m.add(kind, [at]);
    else m.open.set([...has, at]);
    m.framed = false;
  };
  m.end = () => { m.open = null; };
  m.clear = () => { [...m.list].forEach(m.drop); };
  m.wrong = () => {
    const inside = ([x, y]) => !m.picture || x <= m.picture.width && y <= m.picture.height;
    const bad = m.list.find(({ kind, field }) => {
      const corners = cornersIn(field.value);
      return !corners || corners.length < least[kind] || corners.length > most[kind] || !corners.every(inside) ||
        kind === 'second' && !(boxOf(corners)[2] && boxOf(corners)[3]);
    });
    return bad ? { words: t('{what}: “{value}” is not clear. It wants corners as 40,300 940,310 930,720.',
      { what: bad.row.querySelector('span').textContent, value: bad.field.value }), field: bad.field } : null;
  };
  // As a job in one file keeps them: [kind, corners] each.
  m.held = () => m.list.map((mark) => [mark.kind, cornersIn(mark.field.value)]);
  // As the core takes them.
  m.asked = () => {
    const of = (kind) => m.list.filter((mark) => mark.kind === kind).map((mark) => cornersIn(mark.field.value));
    const parts = of('part'), cards = of('second').map(boxOf), [corners] = of('corners');
    return { ...parts.length && { boards: parts }, ...cards.length && { more_cards: cards },
      ...corners && { corners } };
  };
  return m;
}

// Where the card is: four numbers and a frame over the picture that follows them.
function cardFrame() {
  const frame = make('i', { 'aria-hidden': 'true' });
  const numbers = ['Left', 'Top', 'Width', 'Height'].map((n) => numberField(t(n + ' of the card, pixels'), { low: 0,
    keys: 'numeric' }));
  const c = { frame, numbers, picture: null, box: () => numbers.map((n) => numberIn(n.value) || 0) };
  c.show = () => {
    if (!c.picture) return;
    const [x, y, w, h] = c.box();
    const at = (v, whole) => (100 * v) / whole + '%';
    frame.style.left = at(x, c.picture.width);
    frame.style.top = at(y, c.picture.height);
    frame.style.width = at(w, c.picture.width);
    frame.style.height = at(h, c.picture.height);
    frame.hidden = !(w && h);
  };
  c.set = (values) => {
    numbers.forEach((n, i) => { n.value = values[i]; });
    c.show();
  };
  numbers.forEach((n) => n.addEventListener('input', c.show));
  // What is wrong with the numbers as they stand, in words, and the field to mend; nothing if they are good.
  c.wrong = () => {
    const bad = numbers.find((n) => n.value.trim() && Number.isNaN(numberIn(n.value)));
    if (bad) return { words: bad.getAttribute('aria-label') + ': ' + noNumber(bad.value), field: bad };
    const [, , w, h] = c.box();
    return w > 0 && h > 0 ? null : { words: t('Show where the card is first: draw a frame over it.') };
  };
  return c;
}

// One look of the photograph as a file, every pixel as worked out.
async function savePhoto(canvas, words) {
  const name = stem() + '-photo-' + words.toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '') + '.png';
  download(await markedPng(canvas), name, 'image/png');
  say(t('picture.done', { name }));
}

// The photograph bare, then under every finish shown: figures into `photos` as they are made. Answers as the core does.
async function finishPhotos(picture, asked, looks, words, photos) {
  const copy = await createImageBitmap(picture);
  const held = await slow.run('photo', { picture: copy }, 60000, [copy]);
  if (held.problems) return held;
  const all = [{}, ...looks], notes = new Set();
  for (let i = 0; i < all.length; ++i) {
    const one = await slow.run('finishPhoto', { request: { ...asked, ...all[i] } }, 120000);
    if (one.problems) return one;
    one.notes.forEach((n) => notes.add(n));
    const canvas = drawn(one.bitmap, t('Your board: ') + words[i]);
    photos.append(make('figure', {}, canvas, make('figcaption', { text: words[i] }),
      make('button', { type: 'button', text: t('Save in full size'), 'aria-label': t('Save in full size') + ': ' +
        words[i],
        onclick: () => savePhoto(canvas, words[i]) })));
    slow.onprogress({ progress: (i + 1) / all.length });
    if (i === all.length - 1) return { ...one, notes: [...notes] };
  }
}

function photoTools(place, card, even, second, shot, go, kind, marks) {
  return make('div', { class: 'list' },
    make('p', { text: t('Draw a frame over the card with a finger or the mouse, or type where it is.') }),
    make('label', { class: 'pick' }, t('You mark'), kind), make('p', { text: t('photo.marks') }), shot,
    make('div', { class: 'row' }, make('span', { text: t('The card, in pixels:') }),
      ...['left', 'top', 'wide', 'high'].map((w, i) => make('label', { class: 'pick' }, t(w), place.numbers[i])), card),
    marks.rows,
    make('label', {}, even, ' ' + t('photo.even')), make('label', { class: 'pick' }, t('A second lamp'), second), go);
}

// Opens a photograph, wherever it came from.
let takePhoto = () => {};
// What a job in one file keeps of it: the file as it came, and where the card lies; and putting the card there again.
let photoHeld = () => null, placePhoto = () => {};
// What finishing it rests on beside the job: the card, what is marked, the lamps.
const photoAsked = () => { const held = photoHeld(); return held && { ...held, bytes: null }; };

function buildPhoto() {
  const input = make('input', { type: 'file', accept: 'image/*', hidden: true,
    'aria-label': t('A photograph of the bare board') });
  // A phone takes the picture itself; elsewhere both ask for a file.
  const ask = (camera) => {
    input.toggleAttribute('capture', camera);
    if (camera) input.setAttribute('capture', 'environment');
    input.click();
  };
  const choose = make('button', { type: 'button', class: 'go', text: t('Choose a photograph'),
    onclick: () => ask(false) });
  const take = make('button', { type: 'button', class: 'go', text: t('Take a photograph'), onclick: () => ask(true) });
  const shot = make('div', { id: 'shot' }), place = cardFrame();
  const card = make('select', { 'aria-label': t('What card is it?') },
    make('option', { value: '0.9', text: t('white card, 90 %') }),
    make('option', { value: '0.18', text: t('grey card, 18 %') }));
  const out = make('div', { 'aria-live': 'polite' });
  const go = make('button', { type: 'button', class: 'go', text: t('Finish it') });
  const even = make('input', { type: 'checkbox' });
  const second = make('select', { 'aria-label': t('A second lamp') },
    ...[['', t('daylight alone')], ['A', t('a filament lamp')], ['LED-4000', t('a white LED')]].map(([value, text]) =>
      make('option', { value, text })));
  const marks = otherMarks();
  const kind = make('select', { 'aria-label': t('You mark'), onchange: () => marks.end() },
    ...[['card', t('the card')], ['second', t('a second card')], ['part', t('a part to finish')],
      ['corners', t('a rectangle to square up')]].map(([value, text]) => make('option', { value, text })));
  const tools = photoTools(place, card, even, second, shot, go, kind, marks);
  tools.hidden = true;
  const p = panel('p-photo', t('Your own board'),
    make('p', { text: t('photo.how') }), input,
    make('div', { class: 'row' }, choose, take), tools, out);
  const tell = (words) => out.replaceChildren(make('p', { class: 'told', text: words }));
  const shown = () => { for (const told of out.querySelectorAll('.told')) told.remove(); };

  input.addEventListener('change', () => {
    const file = input.files[0];
    input.value = '';
    if (file) takePhoto(file);
  });
  takePhoto = async (file) => {
    tell(t('Opening {name} …', { name: file.name }));
    let next;
    try {
      next = await pictureIn(file);
    } catch (error) {  // the picture before stays until this one proves good
      tell(error.message + (place.picture ? ' ' + t('The picture before it stays.') : ''));
      return;
    }
    if (place.picture) place.picture.close();
    place.picture = next;
    place.file = { name: plainName(file.name) ? file.name : 'photo', bytes: new Uint8Array(await file.arrayBuffer()) };
    const scale = Math.min(1, 1280 / Math.max(next.width, next.height));
    const canvas = drawn(await createImageBitmap(next, { resizeWidth: Math.round(next.width * scale),
      resizeHeight: Math.round(next.height * scale), resizeQuality: 'medium' }), t('The photograph'));
    shot.replaceChildren(canvas, marks.lines, place.frame);
    dragFrame(canvas, next, (values, begins) => {
      shown();
      if (kind.value === 'card') place.set(values.map(String));
      else marks.frame(kind.value, values, begins);
    }, (at) => { if (kind.value !== 'card') { shown(); marks.touch(kind.value, at); } });
    place.set(['', '', '', '']);
    kind.value = 'card';
    second.value = '';
    even.checked = false;
    marks.picture = next;
    marks.clear();
    tools.hidden = false;
    tell(t('{name}: {w} × {h} pixels. Now show where the card is.', { name: file.name, w: next.width,
      h: next.height }));
  };
  photoHeld = () => (place.file ? { ...place.file, card: place.box(), reflectance: card.value, even: even.checked,
    second: second.value, marks: marks.wrong() ? [] : marks.held() } : null);
  placePhoto = (held) => {
    if (held.card.every((v) => v > 0 || v === 0)) place.set(held.card.map(String));
    if ([...card.options].some((o) => o.value === held.reflectance)) card.value = held.reflectance;
    even.checked = held.even;
    if ([...second.options].some((o) => o.value === held.second)) second.value = held.second;
    for (const [what, corners] of held.marks) marks.add(what, corners);
    marks.end();
  };
  go.addEventListener('click', () => finishBoard(p, out, place, marks,
    { reflectance: Number(card.value), light_even: even.checked, ...second.value && { second_light: second.value } },
    tell));
  return p;
}

async function finishBoard(p, out, place, marks, taken, tell) {
  if (!place.picture) { tell(t('Choose a photograph first.')); return; }
  await allIn();
  const wrong = place.wrong() || marks.wrong();
  if (wrong) {
    tell(wrong.words);
    if (wrong.field) wrong.field.focus();
    return;
  }
  // One job in one light for all of them, whatever is turned meanwhile.
  const basis = () => JSON.stringify([wholeJob(), job.light, job.shown, job.shown.map(stageOf), photoAsked()]);
  const was = basis(), asked = request('photo', { card: place.box(), ...marks.asked(), ...taken,
    light: job.light });
  const looks = job.shown.map((finish) => ({ finish, stage: stageOf(finish) }));
  const words = [t('bare, as photographed'), ...looks.map(({ finish, stage }) => {
    const f = job.seen.finishes[finish];
    return f.name + ', ' + stageWords(f.stages[stage]) + ', ' + inText(lightName(asked.light));
  })];
  const photos = make('div', { class: 'photos' });
  const answer = await work1(p, out, t('Reading the card and the board'),
    () => finishPhotos(place.picture, asked, looks, words, photos));
  if (!answer) return;
  const share = t('{n} % of the picture is taken for the board.', { n: Math.round(100 * answer.wood_share) }) + ' ';
  const notes = answer.notes.map((n) => n[0].toUpperCase() + n.slice(1) + '.');
  out.replaceChildren(result(basis, was, make('p', { text: share + notes.join(' ') }), photos));
}
