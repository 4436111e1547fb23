// Opening and saving: the same scene files as the command line.

const stem = () => job.file.replace(/\.toml$/i, '');

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
    trouble([{ line, text: 'invalid utf-8 sequence; save ' + name + ' as UTF-8 text and open it again' }]);
    return null;
  }
}

async function openFiles(list) {
  const files = {}, scenes = [], tables = [];
  for (const f of list) {
    if (f.size > 1000000) { trouble([{ text: f.name + ' has ' + f.size + ' bytes; the largest file read is 1000000 (a scene has a few thousand)' }]); return; }
    const bytes = new Uint8Array(await f.arrayBuffer());
    // Readings come in any encoding; the core knows what to do with them.
    if (!/\.toml$/i.test(f.name)) { files[f.name] = bytes; continue; }
    const text = textOf(f.name, bytes);
    if (text === null) return;
    // A file of materials has no wood and no finish; a lone file is taken for the scene, and the core says what it lacks.
    (/^\s*(\[wood\]|\[\[finish\]\]|wood\s*[.=])/m.test(text) ? scenes : tables).push([f.name, text]);
  }
  if (!scenes.length && tables.length === 1) scenes.push(tables.pop());
  for (const [name, text] of tables) files[name] = text;
  if (scenes.length !== 1) {
    if (scenes.length === 0 && list.length) trouble([{ text: 'a scene is a file that ends in .toml; choose it together with the readings it refers to' }]);
    else if (scenes.length > 1) trouble([{ text: 'choose one scene (.toml) at a time' }]);
    return;
  }
  const [name, text] = scenes[0];
  if (await load(text, name, files)) say(name + ' is open; Undo brings back the job before it.');
}

function download(text, name, type) {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const a = make('a', { href: address, download: name });
  document.body.append(a);
  a.click();
  a.remove();
  setTimeout(() => URL.revokeObjectURL(address), 10000);
}

async function save() {
  await allIn();
  download(job.text, job.file, 'application/toml');
  job.saved.add(job.text);
  say(job.file + ' is saved among your downloads.');
}
