// A beginning: a new job from what there is, an example, or one of the jobs kept in this browser.

const examples = JSON.parse($('examples').textContent);  // [name, text] each

// What may be at hand, a box each, of the kinds given.
function kindBoxes(kinds, ticked) {
  const boxes = make('div', { class: 'checks' });
  for (const [kind, label] of kinds) {
    const set = make('fieldset', { 'data-kind': kind }, make('legend', { text: t(label) }));
    for (const m of job.library[kind])
      set.append(make('label', {}, make('input', { type: 'checkbox', value: m.id, checked: ticked.includes(m.id) }),
        make('span', { text: m.name })));
    if (job.library[kind].length) boxes.append(set);
  }
  return boxes;
}

// The finishes that a first look is worth: up to two clear ones, up to two colored, four in all.
function firstFinishes(wanted, has) {
  const tops = [...has.film, ...has.oil, ...has.wax], out = [];
  const clear = tops.map((m) => ({ value: m.name, steps: [m.step] }));
  const color = has.stock.map((m, i) => ({ value: m.name + ', ' + tops[Math.min(i, tops.length - 1)].name,
    steps: [m.step, tops[Math.min(i, tops.length - 1)].step] }));
  if (wanted !== 'color') out.push(...clear.slice(0, wanted === 'both' ? 2 : 4));
  if (wanted !== 'clear') out.push(...color.slice(0, 4 - out.length));
  return out;
}

const toml = (text) => JSON.stringify(text).replace(/\u007f/g, '');

async function beginJob(title, wood, finishes) {
  const empty = 'format = 1\ntitle = ' + toml(title) + '\n\n[look]\nlights = ["D65", "A", "LED-4000"]\n\n[wood]\nuse ' +
    '= ' +
    toml(wood) + '\n';
  const made = await quick.answer({ do: 'change', text: empty, file: ownName, edits: finishes.map((f) =>
    ({ do: 'add-finish', ...f })) });
  if (made.problems) { trouble(made.problems); return false; }
  const kept = await load(made.text, ownName, {}, { made: true });
  if (kept) say(t('start.opened', { title }));
  return kept;
}

function newJobForm() {
  const title = make('input', { type: 'text', maxlength: '120', value: t('A job'),
    'aria-label': t('Name of the job') });
  const wood = make('select', {}, ...job.library.wood.map((w) => make('option', { value: w.id, text: w.name })));
  wood.value = job.seen.wood.id;
  const has = kindBoxes([['stock', 'Dyes'], ['oil', 'Oils'], ['film', 'Sealers and topcoats'], ['wax', 'Waxes']],
    ['honey-dye', 'orange-shellac', 'waterborne-acrylic']);
  const want = make('fieldset', { class: 'checks' }, make('legend', { text: t('start.want') }),
    ...['clear', 'color', 'both'].map((v) => make('label', {},
      make('input', { type: 'radio', name: 'want', value: v, checked: v === 'both' }),
      make('span', { text: t('start.' + v) }))));
  const refusal = make('p', { class: 'refused', role: 'alert', hidden: true });
  const go = make('button', { type: 'button', class: 'go', id: 'start-go', text: t('start.go'), onclick: async () => {
    const chosen = Object.fromEntries(['stock', 'oil', 'film', 'wax'].map((kind) => [kind,
      job.library[kind].filter((m) =>
      has.querySelector('[data-kind=' + kind + '] input[value="' + CSS.escape(m.id) + '"]:checked'))]));
    const wanted = want.querySelector('input:checked').value;
    const why = !chosen.film.length && !chosen.oil.length && !chosen.wax.length ? t('start.none')
      : wanted === 'color' && !chosen.stock.length ? t('start.nodye') : '';
    put(refusal, why);
    refusal.hidden = !why;
    if (why) return;
    if (await beginJob(title.value.trim() || t('A job'), wood.value, firstFinishes(wanted, chosen))) closeBox();
  } });
  return make('div', { class: 'list' }, make('div', { class: 'row' }, make('label', { class: 'pick' }, t('Name') +
    ' ', title),
    make('label', { class: 'pick' }, t('start.wood') + ' ', wood)), want, make('h3', { text: t('start.own') }), has,
      refusal,
    make('div', { class: 'row' }, go));
}

function exampleList() {
  return make('ul', { class: 'cards' }, ...examples.map(([name, text]) => {
    const title = JSON.parse(text.match(/^title *= *(".*")/m)[1]);
    return make('li', {}, make('button', { type: 'button', 'data-example': name, onclick: async () => {
      if (await load(text, name + '.toml')) { closeBox(); say(t('start.opened', { title })); }
    } }, make('strong', { text: title }), make('span', { text: t('example.' + name) })));
  }));
}

async function earlierList(list) {
  let all = [];
  try { await keep(); all = await store.list(); } catch { /* nothing is kept here */ }
  list.replaceChildren(...all.map((r) => {
    const item = make('li', {}, r.picture && make('img', { src: r.picture, alt: '', width: '216', height: '96' }),
      make('strong', { text: r.title }), make('span', { class: 'sub', text: new Date(r.when).toLocaleString() }),
      make('span', { class: 'row' },
        make('button', { type: 'button', text: t('start.open'), 'aria-label': t('start.open') + ': ' + r.title,
          onclick: async () => { if (await openKept(r)) { closeBox(); say(t('start.opened', { title: r.title }));
            } } }),
        make('button', { type: 'button', text: t('start.forget'), 'aria-label': t('start.forget') + ': ' + r.title,
          disabled: r.id === keeping.id, onclick: async () => { await store.forget(r.id); item.remove(); } })));
    return item;
  }));
  if (!all.length) list.replaceChildren(make('li', { class: 'sub', text: t('start.noearlier') }));
}

const openKept = (r) => load(r.text, r.file, r.files || {}, { made: true, record: { id: r.id, when: r.when } });

function startBox() {
  const list = make('ul', { class: 'cards earlier' });
  box(t('start.title'), make('h3', { text: t('start.examples') }), exampleList(),
    make('h3', { text: t('start.earlier') }), list, make('h3', { text: t('start.nothing') }), newJobForm());
  return earlierList(list);
}
