// A link that carries a small job in its fragment, which browsers send to no server. Opened only after asking.

const linkLimits = { packed: 24000, text: 100000 };

async function through(stream, bytes, most) {
  const reader = new Blob([bytes]).stream().pipeThrough(stream).getReader(), parts = [];
  for (let size = 0; ;) {
    const { value, done } = await reader.read();
    if (done) return new Uint8Array(await new Blob(parts).arrayBuffer());
    size += value.length;
    if (size > most) { reader.cancel(); throw new Error('too long'); }
    parts.push(value);
  }
}

async function linkOf(text) {
  const packed = await through(new CompressionStream('deflate-raw'), new TextEncoder().encode(text), linkLimits.packed);
  const coded = btoa(Array.from(packed, (b) => String.fromCharCode(b)).join('')).replace(/\+/g, '-').replace(/\//g, '_')
    .replace(/=+$/, '');
  return location.href.replace(/#.*/, '') + '#job=' + coded;
}

async function textOfLink(hash) {
  const coded = hash.slice(5).replace(/-/g, '+').replace(/_/g, '/');
  if (coded.length > 4 / 3 * linkLimits.packed + 4) throw new Error('too long');
  const packed = fromBase64(coded);
  return new TextDecoder('utf-8', { fatal: true }).decode(
    await through(new DecompressionStream('deflate-raw'), packed, linkLimits.text));
}

// Only what the scene itself refers to has to come along.
const filesNamed = (text) => Object.keys(job.files).filter((name) => text.includes(name));

async function showLink() {
  await allIn();
  const names = filesNamed(job.text);
  let link = '';
  if (!names.length) try { link = await linkOf(job.text); } catch { /* too long */ }
  if (!link) { box(t('link.title'), make('p', { text: names.length ? t('link.files', { names: names.join(', ') })
    : t('link.long') })); return; }
  const field = make('input', { type: 'text', readonly: true, value: link, id: 'link', 'aria-label': t('link.title') });
  const disk = location.protocol === 'file:';
  box(t('link.title'), make('p', { text: t(disk ? 'link.disk' : 'link.here') }), field, make('div', { class: 'row' },
    disk && make('button', { type: 'button', class: 'go', text: t('link.save'),
      onclick: () => { closeBox(); save(); } }),
    make('button', { type: 'button', class: disk ? '' : 'go',
    text: t('link.copy'), onclick: async () => {
      field.select();
      try { await navigator.clipboard.writeText(link); } catch { document.execCommand('copy'); }
      say(t('link.copied'));
    } })));
  field.select();
}

// A link with a job in it was followed: nothing is opened before whoever sits here says so.
async function askForLink() {
  if (!location.hash.startsWith('#job=')) return;
  const { hash } = location;
  history.replaceState(null, '', location.pathname + location.search);
  let text = '', title = '';
  try {
    text = await textOfLink(hash);
    const seen = await quick.answer({ do: 'look', text, file: ownName });
    if (seen.problems) { trouble(seen.problems, t('The job in the link cannot be opened:')); return; }
    title = seen.title;
  } catch { trouble([{ text: t('link.bad') }]); return; }
  box(t('link.title'), make('p', { text: t('link.ask', { title }) }), make('div', { class: 'row' },
    make('button', { type: 'button', class: 'go', id: 'link-yes', text: t('link.yes'), onclick: async () => {
      closeBox();
      if (await load(text, ownName, {}, { made: true })) say(t('start.opened', { title }));
    } }), make('button', { type: 'button', text: t('link.no'), onclick: closeBox })));
}
