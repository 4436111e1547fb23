// The user's own board: a photograph with a white or grey card in it, and every finish on the wall put on that board.

function buildPhoto() {
  const input = make('input', { type: 'file', accept: 'image/*', hidden: true,
    'aria-label': 'A photograph of the bare board' });
  const choose = make('button', { type: 'button', class: 'go', text: 'Choose a photograph',
    onclick: () => input.click() });
  const shot = make('div', { id: 'shot' });
  const frame = make('i', { 'aria-hidden': 'true' });
  const numbers = ['Left', 'Top', 'Width', 'Height'].map((n) =>
    numberField(n + ' of the card, pixels', { low: 0, keys: 'numeric' }));
  const card = make('select', { 'aria-label': 'What card is it?' },
    make('option', { value: '0.9', text: 'white card, 90 %' }),
    make('option', { value: '0.18', text: 'grey card, 18 %' }));
  const out = make('div', { 'aria-live': 'polite' });
  const go = make('button', { type: 'button', class: 'go', text: 'Finish it' });
  const tools = make('div', { class: 'list' },
    make('p', { text: 'Draw a frame over the card with a finger or the mouse, or type where it is.' }), shot,
    make('div', { class: 'row' }, make('span', { text: 'The card, in pixels:' }),
      ...['left', 'top', 'wide', 'high'].map((w, i) => make('label', { class: 'pick' }, w, numbers[i])), card), go);
  tools.hidden = true;
  const p = panel('p-photo', 'Your own board',
    make('p', { text: 'Lay a white or grey card beside the bare board, in even daylight, and photograph both. Without a card no color can be promised.' }), input, choose, tools, out);
  let picture = null, scale = 1;
  const basis = () => JSON.stringify([wholeJob(), job.light, job.shown, job.shown.map(stageOf)]);

  const show = () => {
    if (!picture) return;
    const [x, y, w, h] = numbers.map((n) => numberIn(n.value) || 0);
    const at = (v, whole) => (100 * v) / whole + '%';
    frame.style.left = at(x, picture.width);
    frame.style.top = at(y, picture.height);
    frame.style.width = at(w, picture.width);
    frame.style.height = at(h, picture.height);
    frame.hidden = !(w && h);
  };
  numbers.forEach((n) => n.addEventListener('input', show));

  input.addEventListener('change', async () => {
    const file = input.files[0];
    input.value = '';
    if (!file) return;
    out.replaceChildren(make('p', { text: 'Opening ' + file.name + ' …' }));
    // The picture before stays until this one proves good.
    const refuse = (words) => out.replaceChildren(make('p', { text: words +
      (picture ? ' The picture before it stays.' : '') }));
    let next;
    try {
      // The browser decodes beside the page, and turns the picture upright.
      next = await createImageBitmap(file);
    } catch {
      refuse(file.name + ' is no picture that this browser opens; a JPEG or PNG is needed.');
      return;
    }
    if (next.width * next.height > 60e6) {
      refuse('The picture has ' + Math.round(next.width * next.height / 1e6) + ' megapixels; the page takes up to 60.');
      next.close();
      return;
    }
    if (picture) picture.close();
    picture = next;
    scale = Math.min(1, 1280 / Math.max(picture.width, picture.height));
    const small = await createImageBitmap(picture, { resizeWidth: Math.round(picture.width * scale),
      resizeHeight: Math.round(picture.height * scale), resizeQuality: 'medium' });
    const canvas = make('canvas', { role: 'img', 'aria-label': 'The photograph' });
    canvas.width = small.width;
    canvas.height = small.height;
    canvas.getContext('2d').drawImage(small, 0, 0);
    small.close();
    shot.replaceChildren(canvas, frame);
    numbers.forEach((n) => { n.value = ''; });
    drag(canvas);
    show();
    tools.hidden = false;
    out.replaceChildren(make('p', { text: file.name + ': ' + picture.width + ' × ' + picture.height +
      ' pixels. Now show where the card is.' }));
  });

  function drag(canvas) {
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
      [Math.min(from[0], to[0]), Math.min(from[1], to[1]), Math.abs(to[0] - from[0]),
        Math.abs(to[1] - from[1])].forEach((v, i) => { numbers[i].value = String(v); });
      show();
    });
    canvas.addEventListener('pointerup', () => { from = null; });
  }

  go.addEventListener('click', async () => {
    if (!picture) { out.replaceChildren(make('p', { text: 'Choose a photograph first.' })); return; }
    await allIn();
    const bad = numbers.find((n) => n.value.trim() && Number.isNaN(numberIn(n.value)));
    if (bad) { out.replaceChildren(make('p', { text: bad.getAttribute('aria-label') + ': ' + noNumber(bad.value) }));
      bad.focus(); return; }
    const box = numbers.map((n) => numberIn(n.value) || 0);
    if (!(box[2] > 0 && box[3] > 0)) { out.replaceChildren(make('p',
      { text: 'Show where the card is first: draw a frame over it.' })); return; }
    // One job in one light for all of them, whatever is turned meanwhile.
    const was = basis(), asked = request('photo', { card: box, reflectance: Number(card.value), light: job.light });
    const names = job.shown.map((i) => job.seen.finishes[i].name);
    const looks = job.shown.map((finish) => ({ finish, stage: stageOf(finish) }));
    const words = ['bare, as photographed', ...looks.map(({ finish, stage }, i) =>
      names[i] + ', ' + stageWords(job.seen.finishes[finish].stages[stage]) + ', ' +
      lightName(asked.light).toLowerCase())];
    const photos = make('div', { class: 'photos' });
    const answer = await work1(p, out, 'Reading the card and the board', async () => {
      const copy = await createImageBitmap(picture);
      const held = await slow.run('photo', { picture: copy }, 60000, [copy]);
      if (held.problems) return held;
      const all = [{}, ...looks];
      for (let i = 0; i < all.length; ++i) {
        const one = await slow.run('finishPhoto', { request: { ...asked, ...all[i] } }, 120000);
        if (one.problems) return one;
        const canvas = make('canvas', { role: 'img', 'aria-label': 'Your board: ' + words[i] });
        canvas.width = one.width;
        canvas.height = one.height;
        canvas.getContext('2d').drawImage(one.bitmap, 0, 0);
        one.bitmap.close();
        photos.append(make('figure', {}, canvas, make('figcaption', { text: words[i] })));
        slow.onprogress({ progress: (i + 1) / all.length });
        if (i === all.length - 1) return one;
      }
    });
    if (!answer) return;
    out.replaceChildren(result(basis, was, make('p', { text: Math.round(100 * answer.wood_share) +
      ' % of the picture is taken for the board. ' + answer.notes.join(' ') }), photos));
  });
  return p;
}
