// What real boards teach: a step board becomes materials of one's own, a first board the one change that mends it.
// Readings are typed or come in a file; the core reads both as the command line does.

const typedFile = 'typed-reading.txt';

// A list of Lab values as a file of readings.
const labFile = (light, observer, geometry, rows) => 'light: ' + light + '\nobserver: ' + observer + '\ngeometry: ' +
  geometry + '\n' + rows.map(({ name, lab }) => [name, ...lab].join('\t') + '\n').join('');

// How readings were taken: under what light, for whom, in which geometry.
function howRead() {
  const light = lightSelect(t('target.light')), observer = select(t('target.observer'), observers());
  const geometry = select(t('judge.geometry'), geometries());
  const e = make('div', { class: 'row' }, ...[[t('target.light'), light], [t('target.observer'), observer],
    [t('judge.geometry'), geometry]].map(([text, field]) => make('label', { class: 'pick' }, text + ' ', field)));
  e.read = () => ({ light: light.value, observer: observer.value, geometry: geometry.value });
  e.show = () => {
    const now = job.seen.look, key = JSON.stringify(now);
    if (e.dataset.key === key) return;
    e.dataset.key = key;
    light.value = job.library.light.includes(now.lights[0]) ? now.lights[0] : 'D65';
    observer.value = now.observer;
    geometry.value = now.geometry;
  };
  return e;
}

// A file of readings beside the fields that are typed: chosen or dropped, and what it holds. `told` hears of a new one.
function readingsFile(told) {
  const input = make('input', { type: 'file', hidden: true, 'aria-label': t('boards.file') });
  const words = make('span', { class: 'sub' });
  const drop = make('button', { type: 'button', text: t('boards.without'), hidden: true, onclick: () => take(null) });
  const e = make('div', { class: 'row' }, input, make('button', { type: 'button', text: t('boards.file'),
    onclick: () => input.click() }), words, drop);
  Object.assign(e, { name: '', content: null, names: [], how: () => ({}) });
  const take = async (file, content) => {
    Object.assign(e, { name: '', content: null, names: [] });
    drop.hidden = true;
    put(words, '');
    if (file) {
      for (const core of [quick, slow]) core.hold({ [file]: content });
      const answer = await quick.answer({ do: 'readings', readings: file, ...e.how() });
      if (answer.problems) put(words, answer.problems.map((p) => p.text).join('; '));
      else {
        Object.assign(e, { name: file, content, names: answer.readings.map((r) => r.name) });
        put(words, t('boards.holds', { name: file, n: e.names.length }));
        drop.hidden = false;
      }
    }
    told();
  };
  e.take = take;
  input.addEventListener('change', async () => {
    const file = input.files[0];
    input.value = '';
    if (file) await take(file.name, new Uint8Array(await file.arrayBuffer()));
  });
  return e;
}

// The states of the chosen finish in which a board is read: dry, and after each coat.
const readStates = (f) => f.stages.filter((s) => s.stage !== 'damp').map(({ stage, after_step: step, coat }) => ({
  step, coat, key: step + '.' + coat, words: stage === 'bare' ? t('boards.bare-wood')
    : t('boards.after', { step, name: layerName(f.steps[step - 1]), coat: Math.max(1, coat) }),
})).filter((s, i, all) => all.findIndex((o) => o.key === s.key) === i);

// One row a state: its three figures, or which reading of the file it is.
function stateRows(file) {
  const e = make('div', { class: 'list states' });
  e.show = (f) => {
    const states = readStates(f), key = JSON.stringify([f.name, states, file.name, file.names]);
    if (e.dataset.key === key) return;
    e.dataset.key = key;
    e.rows = states.map((s, i) => {
      const lab = labFields(t('boards.of', { state: s.words }));
      const which = select(t('boards.which', { state: s.words }), [['', t('boards.notread')],
        ...file.names.map((n) => [n, n])]);
      // A file whose readings stand in the order of the states needs no choosing.
      if (file.names.length === states.length) which.value = file.names[i];
      return { ...s, lab, which };
    });
    e.replaceChildren(...e.rows.map((r) => make('div', { class: 'row state' }, make('span', { text: r.words }),
      ...(file.name ? [r.which] : r.lab.fields.map((field, i) => make('label', { class: 'pick' }, 'Lab'[i] + ' ',
        field))))));
  };
  // What is read, as a boards file says it; throws what is wrong in words.
  e.read = () => e.rows.filter((r) => (file.name ? r.which.value : !r.lab.empty())).map((r) => {
    const bad = !file.name && r.lab.wrong();
    if (bad) throw new Error(r.words + ': ' + bad.words);
    return { step: r.step, coat: Math.max(1, r.coat), ...(file.name ? { name: r.which.value }
      : { name: r.words, lab: r.lab.values() }) };
  });
  return e;
}

// --- Fit: a step board of the chosen finish, or a boards file that was given.
function buildFit(p, out) {
  const how = howRead(), file = readingsFile(() => drawAll()), rows = stateRows(file);
  file.how = () => ({ light: how.read().light, observer: how.read().observer });
  const by = make('input', { type: 'text', maxlength: '120', 'aria-label': t('boards.by'), autocomplete: 'off',
    placeholder: t('boards.by.hint') });
  const go = make('button', { type: 'button', class: 'go', text: t('boards.learn') });
  const head = make('p', {});
  const e = make('div', { class: 'list' }, make('h3', { text: t('boards.fit') }), head, how, file, rows,
    make('label', { class: 'pick' }, t('boards.by') + ' ', by), make('div', { class: 'row' }, go));
  go.addEventListener('click', async () => {
    await allIn();
    let readings;
    try { readings = rows.read(); } catch (error) {
      out.replaceChildren(problemList([{ text: error.message }])); return;
    }
    const f = job.seen.finishes[job.chosen];
    const made = await quick.answer(request('step_board', { finish: job.chosen, title: f.name,
      by: by.value.trim() || t('boards.own'), ...how.read(), readings,
      ...(file.name ? { readings_file: file.name } : {}) }));
    if (made.problems) { out.replaceChildren(problemList(made.problems)); return; }
    await p.learn(stem() + '-board.toml', { ...(file.name ? { [file.name]: file.content } : {}),
      [stem() + '-board.toml']: made.boards });
  });
  // Learns from a boards file; `files` are what it needs and is.
  p.learn = async (boards, files) => {
    const was = wholeJob();
    slow.hold(files);
    const answer = await work1(p, out, t('boards.working'), () => slow.ask({ do: 'fit', boards }, 300000));
    if (answer) showFit(out, was, answer);
    out.scrollIntoView({ block: 'start' });
  };
  e.show = () => {
    const f = job.seen.finishes[job.chosen];
    put(head, t('boards.of-finish', { name: f.name }));
    how.show();
    rows.show(f);
  };
  e.file = file;
  return e;
}

// What the readings taught: each reading before and after, each figure, and the button that takes it over.
function showFit(out, was, answer) {
  const fit = JSON.parse(answer.json), names = namesById(), name = (id) => names.get(id) || id;
  const colors = (lab) => fixed(lab[0], 1) + ' ' + fixed(lab[1], 1) + ' ' + fixed(lab[2], 1);
  const near = (r) => (r.dE00 <= Math.max(1, 1.5 * r.expected_dE00) ? t('boards.near') : t('boards.off'));
  const rows = fit.readings.map((r, i) => [r.board + ', ' + answer.states[i], ...(numbers() ? [colors(r.read_Lab),
    colors(r.predicted_Lab), fixed(r.dE00, 1)] : []), near(r)]);
  const learned = fit.figures.filter((f) => f.told).map((f) => [name(f.material), f.figure, short(f.library) + ' ' +
    f.unit, short(f.value) + ' ' + f.unit, short(f.low_95) + ' – ' + short(f.high_95)]);
  const take = make('button', { type: 'button', class: 'go', id: 'fit-take', text: t('boards.take') });
  take.addEventListener('click', async () => {
    if (await changeWith({ [answer.file]: answer.toml }, answer.edits)) {
      say(t('boards.taken', { names: Object.values(fit.written_as).map((id) => namesById().get(id) ||
        id).join(', ') }));
      openTask('layers');
    }
  });
  const moved = [...new Set(fit.figures.filter((f) => f.told).map((f) => name(f.material)))];
  out.replaceChildren(result(wholeJob, was,
    make('p', { text: t('boards.fitted', { n: fit.readings.length, names: moved.join(', ') }) }),
    table([t('boards.reading'), ...(numbers() ? [t('boards.read'), t('boards.predicted'), 'ΔE'] : []),
      t('boards.how')], rows, t('boards.table')),
    make('div', { class: 'figure' }, table([t('boards.material'), t('boards.figure'), t('boards.library'),
      t('boards.value'), t('boards.range')], learned, t('boards.figures'))),
    make('ul', {}, ...fit.notes.map((n) => make('li', { text: named(n) }))), make('div', { class: 'row' }, take,
      make('button', { type: 'button', text: t('boards.save'), onclick: () => download(answer.toml, answer.file,
        'text/plain') }))));
}

// --- Correct: the first board as it came out, and the one change.
function buildCorrect(p, out) {
  const how = howRead(), lab = labFields(t('boards.of', { state: t('boards.finished') }));
  const file = readingsFile(() => drawAll());
  const sample = select(t('boards.sample'), []), bare = select(t('boards.bare'), []);
  const buy = make('input', { type: 'checkbox' });
  const go = make('button', { type: 'button', class: 'go', text: t('boards.correct.go') }), head = make('p', {});
  const typed = make('div', { class: 'row' }, ...lab.fields.map((f, i) => make('label', { class: 'pick' }, 'Lab'[i] +
    ' ', f)));
  const named2 = make('div', { class: 'row' }, make('label', { class: 'pick' }, t('boards.sample') + ' ', sample),
    make('label', { class: 'pick' }, t('boards.bare') + ' ', bare));
  const e = make('div', { class: 'list' }, make('h3', { text: t('boards.correct') }), head, how, file, typed, named2,
    make('div', { class: 'ticks' },
      make('label', {}, buy, make('span', { text: t('boards.buy') }))), make('div', { class: 'row' }, go));
  go.addEventListener('click', async () => {
    await allIn();
    const bad = !file.name && lab.wrong();
    if (bad) { out.replaceChildren(problemList([{ text: bad.words }])); bad.field.focus(); return; }
    const was = wholeJob(), { light, observer, geometry } = how.read(), measured = file.name || typedFile;
    slow.hold({ [measured]: file.name ? file.content : labFile(light, observer, geometry, [{ name: 'board',
      lab: lab.values() }]) });
    const answer = await work1(p, out, t('boards.working'), () => slow.ask(request('correct', { measured,
      finish: job.seen.finishes[job.chosen].name, buy: buy.checked,
      ...(file.name ? { sample: sample.value, bare: bare.value } : {}) }), 300000));
    if (answer) showCorrect(out, was, answer);
  });
  e.show = () => {
    put(head, t('boards.of-board', { name: job.seen.finishes[job.chosen].name }));
    how.show();
    typed.hidden = !!file.name;
    named2.hidden = !file.name || file.names.length < 2;
    if (sample.dataset.key !== file.names.join()) {
      sample.dataset.key = file.names.join();
      sample.replaceChildren(...file.names.map((n) => make('option', { value: n, text: n })));
      bare.replaceChildren(make('option', { value: '', text: t('boards.notread') }),
        ...file.names.map((n) => make('option', { value: n, text: n })));
    }
  };
  e.file = file;
  return e;
}

function showCorrect(out, was, answer) {
  const c = JSON.parse(answer.json), [first] = c.lights;
  const words = [c.prediction_holds ? t('boards.as-predicted') : t('boards.not-predicted'),
    c.done ? t('boards.done') : t('boards.against', { target: c.target, words: first.words })];
  const one = (p, i) => {
    const use = make('button', { type: 'button', class: i === 0 ? 'go' : '', text: t('boards.use') });
    use.addEventListener('click', async () => {
      if (!(await change(answer.edits[i]))) return;
      showFinish(job.seen.finishes.length - 1);
      openTask('layers');
    });
    return make('li', {}, make('span', { class: 'recipe', text: named(p.do) }), make('span', { class: 'sub figure',
      text: t('boards.expected', { de: fixed(p.worst_dE00, 1), spread: fixed(p.spread_dE00, 1) }) }),
    p.caution && make('span', { class: 'sub', text: '! ' + p.caution }), use);
  };
  out.replaceChildren(result(wholeJob, was, ...words.map((text) => make('p', { text })),
    make('div', { class: 'figure' }, table([t('target.light'), t('boards.read'), t('boards.predicted'),
      t('task.p-target'), 'ΔE'],
    c.lights.map((l) => [lightName(l.light), ...[l.measured_Lab, l.predicted_Lab, l.target_Lab].map((v) =>
      v.map((x) => fixed(x, 1)).join(' ')), fixed(l.to_target_dE00, 1)]), t('boards.compared'))),
    c.proposals.length ? make('ol', { class: 'found' }, ...c.proposals.map(one)) : make('p', { text:
      t('boards.nothing') }),
    c.on_this_board && make('p', { text: t('boards.this-board') + ' ' + named(c.on_this_board.do) }),
    make('ul', {}, ...c.advice.map((a) => make('li', { text: named(a) })))));
}

function buildBoards() {
  const fitted = make('div', { 'aria-live': 'polite' }), corrected = make('div', { 'aria-live': 'polite' });
  const p = panel('p-boards', t('boards.title'), make('p', { text: t('boards.why') }));
  const correct = buildCorrect(p, corrected), fit = buildFit(p, fitted);
  p.body.append(correct, corrected, fit, fitted);
  p.show = () => { correct.show(); fit.show(); };
  p.files = { fit: fit.file, correct: correct.file };
  return p;
}
