// A seeded walk of random actions over the whole page, run inside it: what a hurried hand could press, type, choose or
// open.
// Every so often the walk stands still and checks that the page lives and that no change was lost.

/// To be handed to page.evaluate. Returns what went wrong, as words; empty if nothing.
/// `pause`: ms of a longer stop, now and then: long enough for the boards to be drawn finely, if the page does that.
export async function randomActions({ seed, actions, files, pause }) {
  let state = seed >>> 0;
  const random = () => {  // xorshift32
    state ^= state << 13; state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5; state >>>= 0;
    return state / 4294967296;
  };
  const below = (n) => Math.floor(random() * n), one = (list) => list[below(list.length)];
  const turn = () => new Promise((r) => { const c = new MessageChannel(); c.port1.onmessage = r; c.port2.postMessage(0);
    });
  const rest = (ms) => new Promise((r) => setTimeout(r, ms));
  const wrong = [], last = [];
  const done = (words) => { last.push(words); if (last.length > 12) last.shift(); };
  const said = (id) => document.getElementById(id).textContent;
  const tell = (words) => wrong.push(words + ' | after: ' + last.join('; ') + ' | told: ' + said('say') + ' ' +
    said('trouble'));

  // What is saved is kept here instead of among the downloads.
  let saved = null;
  const address = URL.createObjectURL.bind(URL), click = HTMLAnchorElement.prototype.click;
  URL.createObjectURL = (blob) => { if (blob.type === 'application/toml') saved = blob; return address(blob); };
  HTMLAnchorElement.prototype.click = function () { if (!this.hasAttribute('download')) click.call(this); };
  window.print = () => {};
  // On a machine that does much else at once, Save may say that a change is still under way: then it is pressed again.
  const text = async () => {
    for (let times = 0; times < 30; ++times) {
      saved = null;
      document.getElementById('save').click();
      for (let i = 0; i < 12000 && !saved; ++i) await rest(1);
      if (!saved) { tell('Save writes nothing'); return ''; }
      if (!said('say').includes('without the change')) return saved.text();
    }
    tell('a change is never worked out');
    return '';
  };

  const seen = (e) => e.getClientRects().length > 0 && !e.disabled && !e.closest('[inert]');
  const dialog = () => document.querySelector('dialog[open]');
  const all = (what) => [...(dialog() || document).querySelectorAll(what)].filter(seen);
  const name = (e) => e.dataset.spot || e.getAttribute('aria-label') || e.id || e.textContent.trim().slice(0, 30);
  const give = (e, v, ...events) => { e.value = v; for (const type of events) e.dispatchEvent(
    new Event(type, { bubbles: true })); };
  let opened = false;  // a file since the last look at it
  const open = (list) => {
    opened = true;
    const input = document.getElementById('files'), bag = new DataTransfer();
    for (const f of list) bag.items.add(new File([files[f]], f));
    input.files = bag.files;
    input.dispatchEvent(new Event('change'));
    done('open ' + list.join(' + '));
  };
  const press = (what) => { const e = one(all(what)); if (e) { done('press ' + name(e)); e.click(); } };
  const kinds = {
    press: () => press('button:not(#save):not(#print):not(#keep):not(#undo):not(#redo), summary'),
    // What has broken pages before: everything that takes out, moves or adds.
    shape: () => press('[data-spot^=gone], [data-spot^=copy], [data-spot^=up], [data-spot^=down], ' +
      '[aria-label="Take off this layer"], .more, .board, [aria-label="Add this layer"]'),
    back: () => press('#undo, #redo'),
    choose: () => {
      const e = one(all('select:not(#language)'));  // another language begins the page again
      if (!e || !e.options.length) return;
      e.selectedIndex = below(e.options.length);
      done('choose ' + name(e) + ' ' + e.value);
      e.dispatchEvent(new Event('change', { bubbles: true }));
    },
    slide: () => {
      const e = one(all('input[type=range]'));
      if (!e) return;
      done('slide ' + name(e));
      const v = Number(e.min) + (Number(e.max) - Number(e.min)) * random();
      give(e, String(v), 'input', ...(random() < 0.5 ? ['change'] : []));
    },
    type: () => {
      const e = one(all('input[type=text], textarea'));
      if (!e) return;
      const v = one(['', '0', '1', '2,5', '-3', '1e9', 'NaN', 'ä"\\', '1.000,5', String(below(100)),
        String(below(1000) / 100)]);
      done('type ' + v + ' into ' + name(e));
      if (random() < 0.3) e.focus();
      give(e, v, 'input', ...(random() < 0.7 ? ['change'] : []));
    },
    tick: () => { const e = one(all('input[type=checkbox], input[type=radio]'));
      if (e) { done('tick ' + name(e) + e.value); e.click(); } },
    key: () => {
      const key = one(['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'Enter', 'Escape', 'z', 'y']);
      done('key ' + key);
      (document.activeElement || document.body).dispatchEvent(
        new KeyboardEvent('keydown', { key, ctrlKey: key.length === 1, shiftKey: random() < 0.3, bubbles: true,
        cancelable: true }));
    },
    open: () => open(random() < 0.7 ? [one(Object.keys(files))] : [one(Object.keys(files)), one(Object.keys(files))]),
  };
  const often = { press: 12, shape: 14, back: 10, choose: 12, slide: 14, type: 14, tick: 8, key: 8, open: 2 };
  const bag = Object.entries(often).flatMap(([kind, n]) => Array(n).fill(kind));

  // Saving waits until all that was asked for is in.
  const still = text;
  // Alive: a name given comes back out of Save, and Undo takes exactly it away again.
  let token = 0;
  const check = async () => {
    for (const d of document.querySelectorAll('dialog[open]')) d.close();
    const back = document.getElementById('look-end');
    if (seen(back)) back.click();
    // Another title is another log, for which all is drawn anew: most of the time another name does.
    const word = 'walk ' + ++token, field = () => (token % 4 ? document.querySelector('#stacks .finish .name')
      : document.getElementById('title'));
    if (document.activeElement && document.activeElement.blur) document.activeElement.blur();
    // A file is no step before it is read: one that comes in while a name is given is what Undo takes back first.
    let was, now = await still();
    for (; opened && was !== now; now = await still()) {
      was = now;
      await rest(200);
    }
    opened = false;
    // A slider let go of nowhere is one step back with whatever comes next: so something comes first.
    give(field(), 'settled ' + token, 'input', 'change');
    const before = await text();
    give(field(), word, 'input', 'change');
    const after = await text();
    if (!after.includes('"' + word + '"')) { tell('the name given is not in what is saved'); return; }
    document.getElementById('undo').click();
    if (await text() !== before) tell('Undo does not bring back the text before');
    document.getElementById('redo').click();
    if (await text() !== after) tell('Redo does not bring back the text after');
    const boards = document.querySelectorAll('#boards .board').length,
      finishes = (after.match(/^\s*\[\[\s*finish\s*\]\]/gm) || []).length;
    if (boards < 1 || boards > Math.min(4, finishes)) tell(boards + ' boards on the wall of ' + finishes + ' finishes');
    if (document.querySelectorAll('#stacks .finish').length !== boards) tell('not as many stacks as boards');
    for (const f of document.querySelectorAll('#stacks .finish .name')) if (
      !after.includes(JSON.stringify(f.value).slice(1, -1))) tell('the finish "' + f.value +
      '" is not in what is saved');
  };
  // A name given while other finishes are added, copied or removed, at once and together: it is kept.
  const rush = async () => {
    await still();
    const stacks = [...document.querySelectorAll('#stacks .finish')], mine = one(stacks), word = 'kept ' + ++token;
    if (!mine) return;
    const field = mine.querySelector('input.name');
    for (let n = below(3); n > 0; --n) {
      const other = one(stacks.filter((s) => s !== mine)), b = other &&
        one([...other.querySelectorAll('.tools button')].filter((e) => !e.disabled));
      if (b) { done('press ' + name(b)); b.click(); if (random() < 0.3) await turn(); }
    }
    if (!field.isConnected) return;
    done('name ' + word + ' given to ' + field.dataset.spot);
    give(field, word, 'input', 'change');
    const now = await text();
    // A file that was still being opened has finishes of its own, and a target may name a finish that is gone: then the
    // page says why the name cannot be.
    if (!now.includes('"' + word + '"') && !/the job had become another|there is no finish/.test(said('trouble'))) tell(
      'a name given amid other changes is lost; saved are ' + (now.match(/^ *name = .*$/gm) || []).join(', '));
  };

  for (let i = 0; i < actions && wrong.length < 3; ++i) {
    try {
      kinds[one(bag)]();
    } catch (error) {
      tell('an action threw: ' + error.message);
    }
    const wait = random();
    // A hand in a hurry, that now and then stops long enough for the boards to be drawn finely.
    if (wait < 0.55) await turn();
    else if (wait < 0.985) await rest(wait < 0.85 ? 4 : 15);
    else await rest(pause);
    if (i % 80 === 79) await check();
    if (i % 80 === 39) await rush();
  }
  await check();
  return wrong;
}
