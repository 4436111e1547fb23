// A job in one file: a zip with plain names that holds the scene, what it refers to, and the photograph. The command
// line opens it too.

const bundleLimits = { bytes: 128 << 20, entry: 64 << 20, entries: 64, name: 120 };
const photoNote = 'photo.toml';

const crcTable = Uint32Array.from({ length: 256 }, (_, i) => {
  let c = i;
  for (let k = 0; k < 8; ++k) c = c & 1 ? 0xEDB88320 ^ (c >>> 1) : c >>> 1;
  return c;
});
function crc32(bytes) {
  let c = 0xFFFFFFFF;
  for (let i = 0; i < bytes.length; ++i) c = crcTable[(c ^ bytes[i]) & 255] ^ (c >>> 8);
  return (c ^ 0xFFFFFFFF) >>> 0;
}

// A name that is one file beside the scene, on every system.
const plainName = (name) => !!name && name.length <= bundleLimits.name && !/^\.|[. ]$|[\/\\:*?"<>|\u0000-\u001f\u007f]/
  .test(name);
const bytesOfText = (content) => (typeof content === 'string' ? new TextEncoder().encode(content) : content);

// Little-endian numbers of 2 and 4 bytes, one after another: [2, 20, 4, crc, ...].
function fields(...list) {
  const out = [];
  for (let i = 0; i < list.length; i += 2)
    for (let k = 0; k < list[i]; ++k) out.push((list[i + 1] / 2 ** (8 * k)) & 255);
  return new Uint8Array(out);
}

// The same files always make the same bytes: no clock, every entry of the first day that a zip can say.
async function packBundle(files) {
  const parts = [], directory = [];
  let at = 0;
  const add = (...all) => { for (const a of all) { parts.push(a); at += a.length; } };
  for (const [name, content] of files) {
    const bytes = bytesOfText(content), label = new TextEncoder().encode(name), crc = crc32(bytes), from = at;
    const packed = await through(new CompressionStream('deflate-raw'), bytes, Infinity);
    const [method, data] = packed.length < bytes.length ? [8, packed] : [0, bytes];
    const common = [2, 20, 2, 0x800, 2, method, 2, 0, 2, 0x21, 4, crc, 4, data.length, 4, bytes.length,
      2, label.length, 2, 0];
    add(fields(4, 0x04034b50, ...common), label, data);
    directory.push(fields(4, 0x02014b50, 2, 20, ...common, 2, 0, 2, 0, 2, 0, 4, 0, 4, from), label);
  }
  const start = at;
  add(...directory);
  add(fields(4, 0x06054b50, 2, 0, 2, 0, 2, files.length, 2, files.length, 4, at - start, 4, start, 2, 0));
  return new Blob(parts, { type: 'application/zip' });
}

// [name, bytes] of each file in a zip. Everything is checked before anything is unpacked, and unpacked no further than
// it says; what stands against it is thrown in words.
async function unpackBundle(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length), bad = () => new Error(t('bundle.damaged'));
  let end = bytes.length - 22;
  while (end >= 0 && view.getUint32(end, true) !== 0x06054b50) --end;
  if (end < 0) throw bad();
  const count = view.getUint16(end + 10, true);
  if (count > bundleLimits.entries) throw new Error(t('bundle.many', { n: count }));
  const list = [];
  let all = 0;
  for (let i = 0, at = view.getUint32(end + 16, true); i < count; ++i) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== 0x02014b50) throw bad();
    const [flags, method] = [view.getUint16(at + 8, true), view.getUint16(at + 10, true)];
    const [crc, packed, size] = [16, 20, 24].map((k) => view.getUint32(at + k, true));
    const [named, extra, comment] = [28, 30, 32].map((k) => view.getUint16(at + k, true));
    const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + named));
    if (!plainName(name) || list.some((o) => o.name === name)) throw new Error(t('bundle.name', { name }));
    if (flags & 1 || ![0, 8].includes(method)) throw bad();
    all += size;
    if (size > bundleLimits.entry || all > bundleLimits.bytes) throw new Error(t('bundle.large', { name }));
    list.push({ name, method, crc, packed, size, from: view.getUint32(at + 42, true) });
    at += 46 + named + extra + comment;
  }
  const out = [];
  for (const e of list) {
    if (e.from + 30 > bytes.length || view.getUint32(e.from, true) !== 0x04034b50) throw bad();
    const data = e.from + 30 + view.getUint16(e.from + 26, true) + view.getUint16(e.from + 28, true);
    if (data + e.packed > bytes.length) throw bad();
    const raw = bytes.slice(data, data + e.packed);
    let content = raw;
    if (e.method === 8) try { content = await through(new DecompressionStream('deflate-raw'), raw, e.size); } catch {
      throw bad(); }
    if (content.length !== e.size || crc32(content) !== e.crc) throw bad();
    out.push([e.name, content]);
  }
  return out;
}

// Where the card lies on the photograph, what else is marked on it and which lamp lights it too, beside it.
const photoText = (p) => 'format = 1\n\n[photo]\nfile = ' + toml(p.name) + '\ncard = [' + p.card.join(', ') +
  ']\ncard_reflectance = ' + p.reflectance + '\nlight_even = ' + p.even + '\nsecond_light = ' + toml(p.second) +
  '\nmarks = ' + JSON.stringify(p.marks) + '\n';
const isMark = (m) => Array.isArray(m) && ['second', 'part', 'corners'].includes(m[0]) && Array.isArray(m[1]) &&
  m[1].every((c) => Array.isArray(c) && c.length === 2 && c.every((v) => Number.isInteger(v) && v >= 0));
function photoOf(text) {
  const one = (key) => (text.match(new RegExp('^' + key + ' = (.*)$', 'm')) || [])[1];
  try {
    return { name: JSON.parse(one('file')), card: JSON.parse(one('card')), reflectance: String(Number(one(
      'card_reflectance'))), even: one('light_even') === 'true', second: JSON.parse(one('second_light') || '""'),
      marks: JSON.parse(one('marks') || '[]').filter(isMark) };
  } catch { return null; }
}

async function saveBundle() {
  await allIn();
  const scene = fileName(), names = filesNamed(job.text).filter((n) => n !== scene), photo = photoHeld();
  const files = [[scene, job.text], ...names.map((n) => [n, job.files[n]])];
  if (photo) files.push([photo.name, photo.bytes], [photoNote, photoText(photo)]);
  const name = stem() + '.zip';
  download(await packBundle(files), name, 'application/zip');
  job.saved.add(job.text);
  drawKept();
  say(t('bundle.saved', { name, n: files.length }));
}

// A zip that was given: its files, as if they had been chosen together; then the photograph.
async function openBundle(file) {
  let all;
  try {
    if (file.size > bundleLimits.bytes) throw new Error(t('bundle.large', { name: file.name }));
    all = await unpackBundle(new Uint8Array(await file.arrayBuffer()));
  } catch (error) { trouble([{ text: file.name + ': ' + error.message }]); return; }
  const note = all.find(([n]) => n === photoNote), photo = note && photoOf(new TextDecoder().decode(note[1]));
  const picture = photo && all.find(([n]) => n === photo.name);
  await openFiles(all.filter((e) => e !== note && e !== picture).map(([name, bytes]) => new File([bytes], name)));
  if (!picture || !job.library) return;
  await takePhoto(new File([picture[1]], picture[0]));
  placePhoto(photo);
}
