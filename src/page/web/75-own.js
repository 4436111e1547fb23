// One's own data comes by dialog or by dropping: a reading becomes the wood or the target, materials join the shelf.

// Whether `files`, of which `materials` are files of materials, could be used for the job at hand.
async function takeData(files, materials) {
  await allIn();
  const readings = Object.keys(files).filter((n) => !materials.includes(n) && /\.(csv|ti3|cgats|cgt|txt)$/i.test(n));
  if (!materials.length && !readings.some((n) => looksLikeReading(files[n]))) return false;
  // Materials that lie on the shelf: the scene names their file among its own.
  if (materials.length) {
    if (await changeWith(files, [{ do: 'shelf', files: materials }])) say(t('drop.shelf', { name: materials.join(', '),
      names: Object.values(job.seen.own).flat().map((m) => m.name).join(', ') }));
  }
  for (const name of readings) await askForReading(name, files);
  return true;
}
const looksLikeReading = (content) => /\d/.test(typeof content === 'string' ? content
  : new TextDecoder().decode(content.subarray(0, 4000)));

function askForReading(name, files) {
  const geometry = make('select', { 'aria-label': t('drop.geometry') }, ...[['45/0', 'at 45° (45/0)'],
    ['d/8-included', 'in a sphere, shine included (d/8)'], ['d/8-excluded', 'in a sphere, shine left out (d/8)']].map(
    ([value, text]) => make('option', { value, text })));
  const take = (what) => async () => {
    const keys = { reflectance: name, ...(what === 'wood' ? { geometry: geometry.value } : {}) };
    closeBox();
    if (await changeWith({ [name]: files[name] }, [{ do: 'table', name: what, keys }]))
      say(t('drop.isin', { name, what: t('drop.what.' + what) }));
  };
  const toBoards = (what) => async () => {
    closeBox();
    openTask('p-boards');
    await $('p-boards').files[what].take(name, files[name]);
  };
  const asked = box(t('drop.reading', { name }), make('label', { class: 'pick' }, t('drop.geometry') + ' ', geometry),
    make('div', { class: 'row' }, make('button', { type: 'button', class: 'go', text: t('drop.wood'), onclick:
      take('wood') }),
      make('button', { type: 'button', class: 'go', text: t('drop.target'), onclick: take('target') }),
      make('button', { type: 'button', text: t('drop.first'), onclick: toBoards('correct') }),
      make('button', { type: 'button', text: t('drop.step'), onclick: toBoards('fit') }),
      make('button', { type: 'button', text: t('drop.no'), onclick: closeBox })));
  return new Promise((done) => asked.addEventListener('close', done, { once: true }));
}
