// The page begins.

// Each part by itself: one that cannot be drawn keeps no other from it.
function drawAll() {
  unsay();
  attempt(t('Drawing the switches'), drawSwitches);
  attempt(t('Drawing the boards'), drawBoards);
  attempt(t('Drawing the layers'), drawStacks);
  attempt(t('Saying how sure a color is'), drawSure);
  for (const p of panels) if (p.show) attempt(t('Drawing “{what}”', { what: p.querySelector('h2').textContent }),
    p.show);
  for (const r of document.querySelectorAll('.result')) attempt(t('Drawing a result'), r.show);
  if (look.show) attempt(t('Drawing the choices of Look'), look.show);
  attempt(t('Drawing the head of the page'), () => {
    const title = $('title');
    if (document.activeElement !== title) title.value = job.seen.title;
    if (document.activeElement !== $('notes')) $('notes').value = job.seen.notes;
    document.title = job.seen.title + ' · Foretone';
    $('undo').disabled = job.history.length === 0;
    $('redo').disabled = job.future.length === 0;
    drawKept();
  });
}

// What no task has caught. A fault without an error is the browser's own notice of a drawing put off.
window.addEventListener('error', (e) => { if (e.error) { e.preventDefault(); fault(t('The last thing done'), e.error);
  } });
window.addEventListener('unhandledrejection', (e) => { e.preventDefault(); fault(t('The last thing done'),
  e.reason); });

// The page begins again in another language; the job is kept first.
function languageChoice() {
  const e = select(t('language'), Object.entries(languages).map(([id, [name]]) => [id, name]), { id: 'language' });
  e.value = languageId;
  e.addEventListener('change', async () => {
    keepSetting('language', e.value);
    await allIn();
    kept().began = null;  // a job that was only looked at has to be here again too
    await keep();
    location.reload();
  });
  return e;
}

// What is not in sight at all times.
function moreBox() {
  const tick = make('input', { type: 'checkbox', id: 'numbers', checked: numbers() });
  tick.addEventListener('change', () => showNumbers(tick.checked));
  const mark = numberField(t('What the mark of 50 mm measures on this screen, mm'), { low: 20, high: 200,
    value: String(zoom.mark) });
  mark.addEventListener('change', () => {
    const v = numberIn(mark.value);
    if (!(v >= 20 && v <= 200)) { mark.value = String(zoom.mark); return; }
    zoom.mark = v;
    keepSetting('mark', String(v));
    refresh();
  });
  const go = (text, act, more = {}) => make('button', { type: 'button', text, onclick: () => { closeBox(); act(); },
    ...more });
  box(t('More'), make('div', { class: 'checks' }, make('label', {}, tick,
    make('span', { text: t('Show figures (color values, differences, thicknesses)') }))),
    make('div', { class: 'row' }, go(t('Link to this job'), showLink, { id: 'share' }), go(t('bundle.save'),
      saveBundle, { id: 'bundle' }), go(t('Examples and earlier jobs'), startBox, { id: 'examples-go' }),
      go(t('Picture of the wall'), () => savePicture('wall')), go(t('Picture of the chosen board'),
        () => savePicture('board'))),
    make('label', { class: 'pick' }, t('language') + ' ', languageChoice()),
    make('h3', { text: t('True size') }), make('p',
      { text: t('At true size, lay a ruler on the mark of 50 mm below the ' +
      'boards.') }),
    make('label', { class: 'pick' }, t('It measures, in mm,') + ' ', mark),
    make('h3', { text: t('Keys') }), make('dl', { class: 'keys' }, ...[['Ctrl S', 'save'], ['Ctrl O', 'open'],
      ['Ctrl Z, Ctrl Shift Z', 'undo, redo'], ['Ctrl P', 'the client’s sheet'], ['Alt L', 'look, and back'],
      ['Alt 1 to 4', 'choose a board'], ['Arrows', 'from board to board, stage to stage, task to task'],
      ['Esc', 'back from Look, close a box']].flatMap(([k, what]) => [make('dt', { text: t(k) }), make('dd', { text:
        t(what) })])));
}

function listenForKeys() {
  document.addEventListener('keydown', (e) => {
    const typing = e.target.matches && e.target.matches('input[type=text], textarea'), ctrl = e.ctrlKey || e.metaKey;
    const key = e.key.toLowerCase(), does = (act) => { e.preventDefault(); act(); };
    if (e.key === 'Escape' && look.on && !$('box').open) return does(endLook);
    if (ctrl && key === 'z' && !typing) return does(e.shiftKey ? redo : undo);
    if (ctrl && key === 'y' && !typing) return does(redo);
    if (ctrl && key === 's') return does(save);
    if (ctrl && key === 'o') return does(() => $('files').click());
    if (ctrl && key === 'p' && job.library) return does(() => { endLook(); closeBox(); openTask('p-paper');
      $('client-sheet').click(); });
    if (e.altKey && !ctrl && key === 'l') return does(look.on ? endLook : () => whenReady($('look-go'), startLook));
    if (e.altKey && !ctrl && /^[1-4]$/.test(key) && job.seen && key <= job.shown.length)
      return does(() => { if (look.on) return; choose(job.shown[key - 1]); $('boards').children[key - 1].focus(); });
  });
}

// What is pressed before the page is ready is done once it is, the last thing pressed; until then its button says that
// it waits.
const early = { open: false, act: null, button: null };
function whenReady(button, act) {
  if (early.open) { act(); return; }
  if (early.button) early.button.removeAttribute('aria-busy');
  Object.assign(early, { act, button });
  button.setAttribute('aria-busy', 'true');
}
function nowReady() {
  const { act, button } = early;
  Object.assign(early, { open: true, act: null, button: null });
  if (!act) return;
  button.removeAttribute('aria-busy');
  act();
}
// What turns a job that is not there yet cannot be pressed, and looks so.
function asleep(on) {
  document.body.classList.toggle('asleep', on);
  $('starting').hidden = !on;
  for (const id of ['wall', 'title', 'notes']) $(id).inert = on;
}

async function begin() {
  translateStanding();
  asleep(true);
  put($('starting'), t('starting'));
  document.body.classList.toggle('numbers', setting('numbers', 'off') === 'on');
  $('tasks').setAttribute('aria-label', t('tasks'));
  buildWall();
  buildLook();
  // How high the boards stand, so that what has the focus is never under them, nor under the switches below.
  const held = () => {
    const high = (id, at) => (getComputedStyle($(id)).position === at ? $(id).offsetHeight : 0);
    document.documentElement.style.setProperty('--held', high('boards', 'sticky') + 'px');
    document.documentElement.style.setProperty('--foot', high('under', 'fixed') + 'px');
  };
  const watch = new ResizeObserver(held);
  for (const id of ['boards', 'under']) watch.observe($(id));
  $('open').addEventListener('click', () => $('files').click());
  $('files').addEventListener('change', () => whenReady($('open'), async () => {
    const all = [...$('files').files];
    $('files').value = '';
    await openFiles(all);
  }));
  $('save').addEventListener('click', save);
  $('undo').addEventListener('click', undo);
  $('redo').addEventListener('click', redo);
  for (const [id, act] of [['new', startBox], ['more', moreBox], ['look-go', startLook]])
    $(id).addEventListener('click', () => whenReady($(id), act));
  $('title').addEventListener('change', () => { if ($('title').value !== job.seen.title) change(
    [{ do: 'title', value: $('title').value.trim() || t('A job') }]); });
  $('wood').addEventListener('change', () => { if ($('wood').value) change(
    [{ do: 'table', name: 'wood', keys: { use: $('wood').value } }]); });
  $('cut').addEventListener('change', () => { job.cut = $('cut').value; refresh(); });
  $('view').addEventListener('change', () => { job.view = $('view').value; refresh(); });
  $('notes').addEventListener('change', () => { if (job.seen && $('notes').value.trim() !== job.seen.notes) change(
    [{ do: 'notes', value: $('notes').value.trim() }]); });
  listenForKeys();
  document.addEventListener('dragover', (e) => e.preventDefault());
  document.addEventListener('drop', (e) => { e.preventDefault();
    const all = [...e.dataTransfer.files];
    whenReady($('open'), () => openFiles(all)); });
  window.addEventListener('beforeunload', (e) => { if (!isKept()) { keep(); e.preventDefault(); } });
  document.addEventListener('visibilitychange', () => { if (document.hidden) keep(); });
  window.addEventListener('hashchange', askForLink);
  let resized = 0;
  window.addEventListener('resize', () => { clearTimeout(resized);
    resized = setTimeout(() => job.seen && refresh(), 150); });

  try {
    opened.set(0, 0);
    const last = (await store.list().catch(() => []))[0];
    if (!last || !(await openKept(last))) await load($('scene').textContent, ownName);
    else say(t('back', { title: last.title }));
    asleep(false);
    performance.mark('first-board');
    // What there is to choose from follows; nobody has touched anything yet.
    job.library = await quick.ask({ do: 'materials' });
    buildJobs();
    structure = '';
    drawAll();
    await askForLink();
    document.body.dataset.ready = '1';
    nowReady();
  } catch (error) {
    asleep(false);
    trouble([{ text: t('Foretone could not start: {why}. It needs a browser of 2023 or later.',
      { why: error.message }) }]);
  }
}
begin();
