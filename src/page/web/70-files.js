// Opening and saving: the same scene files as the command line.

// A job that came from a file keeps that file's name; another has its own.
const ownName = 'job.toml';
const fileName = () => (job.file !== ownName || !job.seen ? job.file
  : (job.seen.title.normalize('NFKD').toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '').slice(0, 60) ||
    'job') + '.toml');
const stem = () => fileName().replace(/\.toml$/i, '');

// A scene's text, or the line that is not text; bytes that are none would be lost on saving.
function textOf(name, bytes) {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  try {
    return decoder.decode(bytes);
  } catch {
    let line = 1, from = 0;
    for (let end; ; from = end + 1, ++line) {
      end = bytes.indexOf(10, from);
      try { decoder.decode(end < 0 ? bytes.subarray(from) : bytes.subarray(from, end)); } catch { break; }
      if (end < 0) break;
    }
    trouble([{ line, text: t('invalid utf-8 sequence; save {name} as UTF-8 text and open it again', { name }) }]);
    return null;
  }
}

// A scene whose files were not all there waits for them: they are asked for by name, and once they come it opens.
let awaited = null;
const baseName = (path) => path.replace(/^.*[/\\]/, '');
function missing(text, file, files, problems) {
  const names = problems.filter((p) => p.id === 'file-missing').map((p) => baseName(p.where.replace(/:\d+(:\d+)?$/,
    '')));
  awaited = names.length ? { text, file, files, names } : null;
  trouble(!names.length ? problems : problems.map((p) => (p.id === 'file-missing'
    ? { text: baseName(p.where.replace(/:\d+(:\d+)?$/, '')) + ': ' + p.text } : p)));
  if (names.length) $('trouble').append(make('button', { type: 'button', class: 'go', text: t('open.missing',
    { names: names.join(', ') }), onclick: () => $('files').click() }));
}
async function openWaiting(files) {
  const { text, file, files: had, names } = awaited;
  if (!names.some((n) => n in files)) return false;
  if (await openScene(text, file, { ...had, ...files })) say(t('{name} is open; Undo brings back the job before it.',
    { name: file }));
  return true;
}
const openScene = (text, file, files) => load(text, file, files, { tell: (problems) => missing(text, file, files,
  problems) });

async function openFiles(list) {
  const zip = list.find((f) => /\.zip$/i.test(f.name));
  if (zip) { await openBundle(zip); return; }
  const files = {}, texts = {}, picture = list.find((f) => /^image[/]/.test(f.type));
  if (picture) { openTask('p-photo'); await takePhoto(picture); return; }
  for (const f of list) {
    if (f.size > 1000000) { trouble([{ text: t('{name} has {n} bytes; the largest file read is ' +
      '1000000 (a scene has a few thousand)', { name: f.name, n: f.size }) }]); return; }
    const bytes = new Uint8Array(await f.arrayBuffer());
    // Readings come in any encoding; the core knows what to do with them.
    if (!/\.toml$/i.test(f.name)) { files[f.name] = bytes; continue; }
    const text = textOf(f.name, bytes);
    if (text === null) return;
    texts[f.name] = text;
  }
  const names = Object.keys(texts);
  if (awaited && await openWaiting({ ...files, ...texts })) return;
  awaited = null;
  // A lone file is taken for the scene, and the core says what it lacks; of several it says which is the scene, the
  // others are materials.
  const { scenes, boards = [], others, problems } = names.length === 1 &&
    !/^\s*\[\[?\s*(material|board)\b/m.test(texts[names[0]])
    ? { scenes: names, others: [] } : await quick.answer({ do: 'sort', files: texts });
  if (problems) { trouble(problems.map((p) => ({ text: (p.where ? p.where + ': ' : '') + p.text }))); return; }
  for (const name of [...others, ...boards]) files[name] = texts[name];
  // Step boards that were read: what they teach is shown, and taken over by a button.
  if (scenes.length === 0 && boards.length === 1 && job.library) {
    openTask('p-boards');
    await allIn();
    await $('p-boards').learn(boards[0], files);
    return;
  }
  // No scene among them: readings and materials come to the job at hand.
  if (scenes.length === 0 && job.seen && await takeData(files, others)) return;
  if (scenes.length !== 1) {
    if (scenes.length === 0 && list.length) trouble(
      [{ text: t('a scene is a file that ends in .toml; choose it together with the readings it refers to') }]);
    else if (scenes.length > 1) trouble([{ text: t('choose one scene (.toml) at a time') }]);
    return;
  }
  if (await openScene(texts[scenes[0]], scenes[0], files)) say(t('{name} is open; Undo brings back the job ' +
    'before it.', { name: scenes[0] }));
}

function download(content, name, type) {
  const address = URL.createObjectURL(content instanceof Blob ? content : new Blob([content], { type }));
  const a = make('a', { href: address, download: name });
  document.body.append(a);
  a.click();
  a.remove();
  setTimeout(() => URL.revokeObjectURL(address), 10000);
}

// Whatever state the page is in, the text is written: a change that is stuck is waited for ten seconds.
async function save() {
  const whole = await Promise.race([allIn().then(() => true, () => false),
    new Promise((done) => setTimeout(done, 10000, false))]);
  const text = job.text || $('scene').textContent;
  const name = fileName();
  download(text, name, 'application/toml');
  job.saved.add(text);
  drawKept();
  const beside = filesNamed(text);
  say(t(whole ? '{name} is saved among your downloads.'
    : '{name} is saved among your downloads, without the change that is still being worked out.', { name }) +
      (beside.length ? ' ' + t('bundle.beside',
    { names: beside.join(', ') }) : ''));
}
