// The user's own board: a photograph with a white or grey card in it, and every finish on the wall put on that board.

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

// A frame drawn over the canvas goes to `set` as [left, top, width, height] in pixels of the picture.
function dragFrame(canvas, picture, set) {
  const at = (e) => {
    const r = canvas.getBoundingClientRect();
    const bound = (v, high) => Math.round(Math.min(high, Math.max(0, v)));
    return [bound((e.clientX - r.left) / r.width * picture.width, picture.width),
      bound((e.clientY - r.top) / r.height * picture.height, picture.height)];
  };
  let from = null;
  canvas.addEventListener('pointerdown', (e) => { from = at(e); canvas.setPointerCapture(e.pointerId); });
  canvas.addEventListener('pointermove', (e) => {
    if (!from) return;
    const to = at(e);
    set([Math.min(from[0], to[0]), Math.min(from[1], to[1]), Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])]);
  });
  canvas.addEventListener('pointerup', () => { from = null; });
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

function photoTools(place, card, even, shot, go) {
  return make('div', { class: 'list' },
    make('p', { text: t('Draw a frame over the card with a finger or the mouse, or type where it is.') }), shot,
    make('div', { class: 'row' }, make('span', { text: t('The card, in pixels:') }),
      ...['left', 'top', 'wide', 'high'].map((w, i) => make('label', { class: 'pick' }, t(w), place.numbers[i])), card),
    make('label', {}, even, ' ' + t('photo.even')), go);
}

// Opens a photograph, wherever it came from.
let takePhoto = () => {};
// What a job in one file keeps of it: the file as it came, and where the card lies; and putting the card there again.
let photoHeld = () => null, placePhoto = () => {};

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
  const tools = photoTools(place, card, even, shot, go);
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
    shot.replaceChildren(canvas, place.frame);
    dragFrame(canvas, next, (values) => { shown(); place.set(values.map(String)); });
    place.set(['', '', '', '']);
    tools.hidden = false;
    tell(t('{name}: {w} × {h} pixels. Now show where the card is.', { name: file.name, w: next.width,
      h: next.height }));
  };
  photoHeld = () => (place.file ? { ...place.file, card: place.box(), reflectance: card.value, even: even.checked }
    : null);
  placePhoto = (held) => {
    if (held.card.every((v) => v > 0 || v === 0)) place.set(held.card.map(String));
    if ([...card.options].some((o) => o.value === held.reflectance)) card.value = held.reflectance;
    even.checked = held.even;
  };
  go.addEventListener('click', () => finishBoard(p, out, place,
    { reflectance: Number(card.value), light_even: even.checked }, tell));
  return p;
}

async function finishBoard(p, out, place, taken, tell) {
  if (!place.picture) { tell(t('Choose a photograph first.')); return; }
  await allIn();
  const wrong = place.wrong();
  if (wrong) {
    tell(wrong.words);
    if (wrong.field) wrong.field.focus();
    return;
  }
  // One job in one light for all of them, whatever is turned meanwhile.
  const basis = () => JSON.stringify([wholeJob(), job.light, job.shown, job.shown.map(stageOf)]);
  const was = basis(), asked = request('photo', { card: place.box(), ...taken, light: job.light });
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
