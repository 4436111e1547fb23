// A worker: holds the core and asks it. Nothing is computed here.
'use strict';
let core = null, memory = null, stop = false;
const utf8 = new TextEncoder(), text = new TextDecoder();

// The packed core comes in pieces. `fromBase64` is the page's, which hands it on (10-core.js).
let unpacking = null;
function unpack(piece) {
  if (!unpacking) {
    const { readable, writable } = new DecompressionStream('gzip');
    unpacking = writable.getWriter();
    WebAssembly.compileStreaming(new Response(readable, { headers: { 'Content-Type': 'application/wasm' } })).then(
      (module) => { start(module); postMessage({ module }); },
      (error) => postMessage({ damaged: String(error && error.message || error) }));
  }
  (piece === null ? unpacking.close() : unpacking.write(fromBase64(piece))).catch(() => { /* the compiler says it */ });
}

function start(module) {
  const imports = {};
  for (const i of WebAssembly.Module.imports(module)) {
    imports[i.module] = imports[i.module] || {};
    // There is no file, clock or terminal to be had: whoever asks is told "not supported" (52).
    imports[i.module][i.name] = () => 52;
  }
  imports.env.foretone_progress = (share) => postMessage({ progress: share });
  imports.env.emscripten_notify_memory_growth = () => {};
  imports.wasi_snapshot_preview1.proc_exit = () => { throw new Error('the core stopped'); };
  for (const name of ['environ_sizes_get', 'environ_get'])
    imports.wasi_snapshot_preview1[name] = (a, b) => {
      if (name === 'environ_sizes_get') { const v = new DataView(memory.buffer); v.setUint32(a, 0, true);
        v.setUint32(b, 0, true); }
      return 0;
    };
  const instance = new WebAssembly.Instance(module, imports);
  core = instance.exports;
  memory = core.memory;
  if (core._initialize) core._initialize();
}

// Copies bytes in; whoever calls frees.
function put(bytes) {
  const at = core.malloc(bytes.length || 1);
  new Uint8Array(memory.buffer).set(bytes, at);
  return at;
}

function ask(request) {
  const bytes = utf8.encode(JSON.stringify(request));
  const at = put(bytes);
  const out = core.foretone_answer(at, bytes.length);
  core.free(at);
  const all = new Uint8Array(memory.buffer);
  return JSON.parse(text.decode(all.subarray(out, all.indexOf(0, out))));
}

function hold(files) {
  for (const [name, content] of Object.entries(files)) {
    const n = utf8.encode(name), c = typeof content === 'string' ? utf8.encode(content) : content;
    const a = put(n), b = put(c);
    core.foretone_hold(a, n.length, b, c.length);
    core.free(a);
    core.free(b);
  }
}

function pixels(width, height) {
  const at = core.foretone_pixels();
  return new Uint8ClampedArray(memory.buffer.slice(at, at + 4 * width * height));
}

const rest = () => new Promise((done) => { const c = new MessageChannel(); c.port1.onmessage = done;
  c.port2.postMessage(0); });

const jobs = {
  ask: ({ request }) => [ask(request)],

  // A change, what it looks like, and the boards that look different from before.
  live({ request, boards }) {
    const out = ask(request);
    const transfer = [];
    out.boards = [];
    if (!out.problems)
      for (const b of boards) {
        if (b.finish >= out.finishes.length || !b.width) continue;
        const drawn = ask({ do: 'board', text: out.text || request.text, file: request.file, ...b });
        if (drawn.width && !drawn.same) {
          drawn.pixels = pixels(drawn.width, drawn.height);
          transfer.push(drawn.pixels.buffer);
        }
        out.boards.push({ ...drawn, finish: b.finish, place: b.place });
      }
    return [out, transfer];
  },

  // One board again, with more pixels.
  draw({ request }) {
    const drawn = ask(request);
    if (drawn.width && !drawn.same) drawn.pixels = pixels(drawn.width, drawn.height);
    return [drawn, drawn.pixels ? [drawn.pixels.buffer] : []];
  },

  // A photograph: its pixels go in once; each look of it comes back as a picture.
  photo({ picture }) {
    const { width, height } = picture;
    const canvas = new OffscreenCanvas(width, height);
    const c = canvas.getContext('2d', { willReadFrequently: true });
    c.drawImage(picture, 0, 0);
    picture.close();
    const bytes = c.getImageData(0, 0, width, height).data;
    const at = put(bytes);
    core.foretone_photo(width, height, at, bytes.length);
    core.free(at);
    return [{ width, height }];
  },
  async finishPhoto({ request }) {
    const out = ask(request);
    if (out.problems) return [out];
    out.bitmap = await createImageBitmap(new ImageData(pixels(out.width, out.height), out.width, out.height));
    return [out, [out.bitmap]];
  },

  async match({ request }) {
    stop = false;
    let state = ask({ ...request, part: 'begin' });
    if (state.problems) return [state];
    let ways = 1;
    while (state.done < state.of && !stop) {
      const began = performance.now();
      state = ask({ do: 'match', part: 'go', ways });
      if (state.problems) return [state];
      const ms = performance.now() - began;
      ways = Math.max(1, Math.min(64, Math.round(ways * Math.min(4, 60 / Math.max(ms, 1)))));
      postMessage({ progress: 0.8 * state.done / state.of, note: 'judged', done: state.done, of: state.of,
        recipes: state.recipes });
      await rest();
    }
    postMessage({ progress: 0.8, note: 'checking' });
    const out = ask({ do: 'match', part: 'end' });
    out.stopped = stop && state.done < state.of;
    return [out];
  },
};

onmessage = async ({ data }) => {
  if (data.stop) { stop = true; return; }
  try {
    if (data.piece !== undefined) { unpack(data.piece); return; }
    if (data.module) { start(data.module); hold(data.files); postMessage({ ready: true }); return; }
    if (data.files) { hold(data.files); return; }
    const [answer, transfer] = await jobs[data.job](data);
    postMessage({ id: data.id, answer }, transfer || []);
  } catch (error) {
    const why = String(error && error.message || error);
    postMessage(data.piece !== undefined ? { damaged: why } : { id: data.id, failed: why });
  }
};
