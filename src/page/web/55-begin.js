// A beginning: a new job from what there is, an example, or one of the jobs kept in this browser.

const examples = JSON.parse($('examples').textContent);  // [name, text] each

// What may be at hand, a box each, of the kinds given. Nothing is ticked before somebody ticks it.
function kindBoxes(kinds) {
  const boxes = make('div', { class: 'checks' });
  for (const [kind, label] of kinds) {
    const set = make('fieldset', { 'data-kind': kind }, make('legend', { text: t(label) }));
    for (const m of job.library[kind])
      set.append(make('label', {}, make('input', { type: 'checkbox', value: m.id }),
        make('span', { text: m.name })));
    if (job.library[kind].length) boxes.append(set);
  }
  return boxes;
}

// The finishes that were asked for: each dye under each clear coat, or without dyes the clear coats alone; beside them,
// if that is wanted, the same without dye.
function askedFinishes(has, beside) {
  const tops = [...has.film, ...has.oil, ...has.wax];
  const color = has.stock.flatMap((m) => tops.map((top) => ({ value: m.name + ', ' + top.name,
    steps: [m.step, top.step] })));
  const clear = tops.map((m) => ({ value: m.name, steps: [m.step] }));
  return color.length ? [...color, ...(beside ? clear : [])] : clear;
}
// A new job has as many at first as the wall holds.
const mostFirst = 4;

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
  const has = kindBoxes([['stock', 'Dyes'], ['oil', 'Oils'], ['film', 'Sealers and topcoats'], ['wax', 'Waxes']]);
  const beside = make('input', { type: 'checkbox', id: 'start-beside' });
  const ticked = (kind) => job.library[kind].filter((m) =>
    has.querySelector('[data-kind=' + kind + '] input[value="' + CSS.escape(m.id) + '"]:checked'));
  const asked = () => askedFinishes({ stock: ticked('stock'), oil: ticked('oil'), film: ticked('film'),
    wax: ticked('wax') }, beside.checked);
  const sum = make('p', { class: 'sum', id: 'start-sum', 'aria-live': 'polite' });
  const count = () => {
    const all = asked(), names = all.slice(0, mostFirst).map((f) => f.value).join('; ');
    put(sum, !all.length ? t(has.querySelector(':checked') ? 'start.none' : 'start.zero')
      : all.length > mostFirst ? t('start.many', { n: all.length, most: mostFirst, names })
        : t(all.length === 1 ? 'start.one' : 'start.some', { n: all.length, names }));
    refusal.hidden = true;
  };
  const refusal = make('p', { class: 'refused', role: 'alert', hidden: true });
  const go = make('button', { type: 'button', class: 'go', id: 'start-go', text: t('start.go'), onclick: async () => {
    const all = asked().slice(0, mostFirst);
    put(refusal, all.length ? '' : t('start.none'));
    refusal.hidden = !!all.length;
    if (!all.length) { has.scrollIntoView({ block: 'nearest' }); return; }
    if (await beginJob(title.value.trim() || t('A job'), wood.value, all)) closeBox();
  } });
  const form = make('div', { class: 'list' }, make('div', { class: 'row' }, make('label', { class: 'pick' }, t('Name') +
    ' ', title), make('label', { class: 'pick' }, t('start.wood') + ' ', wood)), make('h3', { text: t('start.own') }),
  has, make('div', { class: 'ticks' }, make('label', {}, beside, make('span', { text: t('start.beside') }))));
  form.addEventListener('change', count);
  count();
  // What will be made stands beside the button that makes it, in sight wherever the box is scrolled to.
  return { form, foot: make('div', { class: 'foot' }, make('div', {}, sum, refusal), go) };
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
  const { form, foot } = newJobForm();
  box(t('start.title'), make('h3', { text: t('start.examples') }), exampleList(),
    make('h3', { text: t('start.earlier') }), list, make('h3', { text: t('start.nothing') }), form).append(foot);
  return earlierList(list);
}
