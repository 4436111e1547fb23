// Match: what may be tried to reach the target, every choice of it, and what was found.

// What may be at hand, and which part of a recipe it can be. What the core makes of a list of materials is where the
// choices begin.
const matchKinds = [['stock', 'Dyes'], ['stain', 'Stains'], ['gel-stain', 'Gel stains'], ['oil', 'Oils'],
  ['film', 'Sealers and topcoats'], ['glaze', 'Glazes'], ['toner', 'Toners'], ['wax', 'Waxes']];
const coatFields = ['coats', 'method', 'sheen_gu60', 'tint', 'tint_percent'];
const matchRooms = {
  dye: { kinds: ['stock'], fields: ['at_once', 'most_parts', 'water', 'wet_g_per_m2'] },
  stain: { kinds: ['stain', 'gel-stain'], fields: ['remainder', 'coats', 'method'] },
  oil: { kinds: ['oil'], fields: coatFields },
  sealer: { kinds: ['film'], fields: ['cut_lb', ...coatFields] },
  glaze: { kinds: ['glaze', 'gel-stain'], fields: ['remainder', 'coats', 'method'] },
  toner: { kinds: ['toner'], fields: ['passes', 'toner_strength', 'coats'] },
  topcoat: { kinds: ['film', 'oil', 'wax'], fields: ['cut_lb', ...coatFields] },
};

// One value, several with blanks between, or a range: 1–3, 20–200 / 20. Null where it is none of these.
function valuesIn(text) {
  const s = text.trim(), n = '([\\d.,]+)';
  const range = s.match(new RegExp('^' + n + '\\s*(?:–|-|\\.\\.|…|to|bis|à)\\s*' + n +
    '(?:\\s*(?:/|by|in|par)\\s*' + n + ')?$'));
  if (range) {
    const [from, to, step] = range.slice(1).map((v) => (v === undefined ? undefined : numberIn(v)));
    if ([from, to].some(Number.isNaN) || Number.isNaN(step)) return null;
    return { from, to, ...(step === undefined ? {} : { step }) };
  }
  const all = s.split(/[\s;]+/).map(numberIn);
  return all.some(Number.isNaN) ? null : all.length === 1 ? all[0] : all;
}
const valuesText = (v) => (Array.isArray(v) ? v.map(short).join(' ') : typeof v === 'object'
  ? short(v.from) + '–' + short(v.to) + (v.step ? ' / ' + short(v.step) : '') : short(v));

const tickBox = (m, checked) => make('label', {}, make('input', { type: 'checkbox', value: m.id, checked }),
  make('span', { text: m.name }));
const tickedIn = (box) => [...box.querySelectorAll('input:checked')].map((b) => b.value);

// What may be at hand, a box each; a few are ticked to begin with.
function materialBoxes() {
  const boxes = make('div', { class: 'checks' });
  boxes.show = (ticked) => {
    const kinds = matchKinds.filter(([kind]) => shelf(kind).length);
    const set = ([kind, label]) => make('fieldset', {}, make('legend', { text: t(label) }),
      ...shelf(kind).map((m) => tickBox(m, ticked.includes(m.id))));
    const usual = ([kind]) => ['stock', 'oil', 'film'].includes(kind) || shelf(kind).some((m) => ticked.includes(m.id));
    const rare = kinds.filter((k) => !usual(k));
    boxes.replaceChildren(...kinds.filter(usual).map(set), ...(rare.length ? [make('details', {},
      make('summary', { text: rare.map(([, label]) => t(label)).join(', ') }),
      make('div', { class: 'checks' }, ...rare.map(set)))] : []));
  };
  return boxes;
}

// One field of a part of a recipe: reads as a scene writes it, undefined where nothing is said.
function choiceField(key) {
  const label = t('match.' + key);
  if (key === 'method') {
    const e = select(label, [['', t('match.usual')], ...['wipe', 'brush', 'spray', 'roll'].map((m) => [m, t(m)])]);
    return { e: make('label', { class: 'pick' }, label + ' ', e), read: () => e.value || undefined,
      fill: (v) => { e.value = v || ''; } };
  }
  if (key === 'tint') {
    const e = select(label, []), option = (ids, text) => make('option', { value: ids.join(), text });
    return { e: make('label', { class: 'pick' }, label + ' ', e), read: () => (e.value ? e.value.split(',')
      : undefined),
      fill: (v = []) => {
        const dyes = shelf('dye'), named = v.map((id) => (dyes.find((m) => m.id === id) || { name: id }).name);
        e.replaceChildren(option([], t('match.untinted')), ...(v.length > 1 ? [option(v, named.join(', '))] : []),
          ...dyes.map((m) => option([m.id], m.name)));
        e.value = v.join();
      } };
  }
  const e = make('input', { type: 'text', class: 'number', maxlength: '60', autocomplete: 'off', 'aria-label': label });
  return { e: make('label', { class: 'pick' }, label + ' ', e),
    read: () => {
      if (!e.value.trim()) return undefined;
      const v = valuesIn(e.value);
      if (v === null) throw new Error(label + ': ' + noNumber(e.value));
      return v;
    },
    fill: (v) => { e.value = v === undefined ? '' : valuesText(v); } };
}

// One part of a recipe: whether it may be used, of what, and how.
function choiceRoom(name) {
  const { kinds, fields } = matchRooms[name];
  const may = select(t('match.may'), [...(name === 'topcoat' ? [] : [['no', t('match.no')]]), ['yes', t('match.yes')],
    ...(['topcoat', 'toner', 'glaze', 'stain'].includes(name) ? [] : [['always', t('match.always')]])]);
  const use = make('fieldset', { class: 'ticks' }, make('legend', { text: t('match.use') }));
  const all = fields.map((key) => [key, choiceField(key)]);
  const e = make('details', { class: 'choice', 'data-room': name }, make('summary', { text: t('match.room.' + name) }),
    make('div', { class: 'list' }, may, use, ...all.map(([, f]) => f.e)));
  return { e,
    fill(table, at) {
      may.value = table ? (table.always ? 'always' : 'yes') : name === 'topcoat' ? 'yes' : 'no';
      const some = kinds.flatMap((k) => shelf(k)).filter((m) => at.includes(m.id));
      const named = table && table.use ? table.use : some.map((m) => m.id);
      use.replaceChildren(use.firstChild, ...some.map((m) => tickBox(m, named.includes(m.id))));
      for (const [key, f] of all) f.fill(table ? table[key] : undefined);
      e.hidden = !some.length;
    },
    read() {
      if (may.value === 'no' || e.hidden) return undefined;
      const table = { use: tickedIn(use) };
      for (const [key, f] of all) { const v = f.read(); if (v !== undefined) table[key] = v; }
      if (may.value === 'always') table.always = true;
      return table;
    } };
}

// All choices of a search, and the table of them.
function searchForm() {
  const most = numberField(t('match.most_steps'), { low: 1, high: 7, value: '4', keys: 'numeric' });
  const uneven = numberField(t('match.most_uneven'), { low: 0 });
  const rooms = Object.keys(matchRooms).map((name) => [name, choiceRoom(name)]);
  const e = make('details', { class: 'choices' }, make('summary', { text: t('match.more') }),
    make('p', { class: 'sub', text: t('match.how') }), make('label', { class: 'pick' }, t('match.most_steps') + ' ',
      most), make('label', { class: 'pick figure' }, t('match.most_uneven') + ' ', uneven),
    ...rooms.map(([, r]) => r.e));
  return { e,
    fill(table, at) {
      most.value = String(table.most_steps || 4);
      uneven.value = table.most_uneven ? short(table.most_uneven) : '';
      for (const [name, r] of rooms) r.fill(table[name], at);
    },
    read(at) {
      const steps = numberIn(most.value), table = { most_steps: steps, on_hand: at };
      if (Number.isNaN(steps)) throw new Error(t('match.most_steps') + ': ' + noNumber(most.value));
      if (uneven.value.trim()) table.most_uneven = numberIn(uneven.value);
      for (const [name, r] of rooms) { const of = r.read(); if (of) table[name] = of; }
      // A powder that tints a coat is on hand too.
      table.on_hand = [...new Set([...at, ...rooms.flatMap(([name]) => (table[name] || {}).tint || [])])];
      return table;
    } };
}

// Materials that a search names, of whatever part.
const namedIn = (table) => [...new Set([...(table.on_hand || []), ...Object.keys(matchRooms).flatMap((r) =>
  [...((table[r] || {}).use || []), ...((table[r] || {}).tint || [])])])];

function buildMatch() {
  const boxes = materialBoxes(), form = searchForm(), out = make('div', { 'aria-live': 'polite' });
  const go = make('button', { type: 'button', class: 'go', text: t('Find ways to the target') });
  const keepIt = make('button', { type: 'button', text: t('match.keep') });
  panel('p-match', t('Match the target'), make('p', { text: t('match.have') }), boxes, form.e,
    make('div', { class: 'row' }, go, keepIt), out);
  const p = $('p-match'), picked = () => tickedIn(boxes);
  let from = '', asked = '';
  const tell = (problems) => out.replaceChildren(problemList(problems));

  // The choices follow what is ticked; whether there are any.
  const follow = async () => {
    const at = picked(), key = at.join();
    if (key === asked) return true;
    const answer = await quick.answer(request('allow', { use: at }));
    if (answer.problems) { tell(answer.problems); return false; }
    asked = key;
    form.fill(answer.search, at);
    return true;
  };
  boxes.addEventListener('change', async () => { out.replaceChildren(); await follow(); });
  const table = async () => {
    await allIn();
    if (!(await follow())) return null;
    try { return form.read(picked()); } catch (error) { tell([{ text: error.message }]); return null; }
  };
  keepIt.addEventListener('click', async () => {
    const keys = await table();
    if (!keys) return;
    if (await change([{ do: 'table', name: 'search', keys }], true, tell)) say(t('match.kept'));
  });
  go.addEventListener('click', async () => {
    if (!job.seen.target) { out.replaceChildren(make('p', { text: t('match.target') }),
      make('button', { type: 'button', text: t('task.p-target'), onclick: () => openTask('p-target') })); return; }
    const search = await table();
    if (!search) return;
    const was = allButFinishes(), { text, problems } = await quick.answer(request('allow', { search }));
    if (problems) { tell(problems); return; }
    const run = () => slow.run('match', { request: { do: 'match', text, file: job.file } });
    run.gentle = true;
    const answer = await work1(p, out, t('Setting out'), run);
    if (answer) showMatch(out, was, JSON.parse(answer.json), answer.stopped);
  });
  p.show = () => {
    const own = job.seen.search, key = JSON.stringify(own), have = JSON.stringify(job.seen.own);
    if (from === key && boxes.dataset.of === have && boxes.childElementCount) return;
    const at = own ? namedIn(own) : boxes.childElementCount ? picked()
      : ['honey-dye', 'russet-dye', 'orange-shellac', 'waterborne-acrylic'];
    from = key;
    boxes.dataset.of = have;
    boxes.show(at);
    asked = own ? picked().join() : '';
    if (own) form.fill(own, at);
    else follow().catch((error) => fault(t('match.have'), error));
  };
  return p;
}

function showMatch(out, was, m, stopped) {
  const list = make('ol', { class: 'found' }, ...m.candidates.map(candidate));
  const words = (stopped ? t('Stopped: ') : '') + t('{examined} of {recipes} recipes judged.', m) +
    (m.unreachable ? ' ' + t('Out of reach: {why}.', { why: m.unreachable }) : '') + (m.left_out ? ' ' + m.left_out
    : '');
  out.replaceChildren(result(allButFinishes, was, make('p', { text: words }), list));
  if (!m.candidates.length) list.replaceWith(make('p', { text: t('Nothing was found.') }));
}

// One recipe that was found, with a button that makes it a finish.
function candidate(c) {
  const worst = c.colors.find((x) => x.dE00 === c.worst_dE00), recipe = recipeWords(c.step);
  const use = make('button', { type: 'button', text: t('Put it on the wall') });
  use.addEventListener('click', async () => {
    if (!(await change([{ do: 'add-finish', value: freeName(t('match, ') + recipe.slice(0, 40)),
      steps: c.step.map(stepKeys) }]))) return;
    showFinish(job.seen.finishes.length - 1);
    openTask('layers');
    window.scrollTo({ top: 0 });
  });
  return make('li', {}, make('span', { class: 'chips' }, ...c.colors.map((x) => chip(x.hex, lightName(x.light)))),
    make('span', { class: 'recipe', text: recipe }),
    make('span', { class: 'sub' }, make('span', { class: 'figure', text: t('ΔE {de} at worst: ',
      { de: fixed(c.worst_dE00, 1) }) }),
      worst.words + ' · ' + several(c.steps, 'step') + ', ' + several(c.coats, 'coat') + ' · ' +
      t('a client would see it: {n} %', { n: Math.round(100 * c.chance_seen) })),
    ...c.findings.map((f) => make('span', { class: 'sub', text: '! ' + f.what })), use);
}
