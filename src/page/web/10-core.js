// The workers that hold the core: one for what must answer at once, one for long work, one for boards at every pixel.

// A plain loop: ten times as fast as Uint8Array.from with a function over the text's letters.
function fromBase64(text) {
  if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
  const letters = atob(text), bytes = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; ++i) bytes[i] = letters.charCodeAt(i);
  return bytes;
}
const workerAddress = URL.createObjectURL(new Blob([document.getElementById('worker').textContent,
  String(fromBase64)], { type: 'text/javascript' }));
// The packed core stands in the page in pieces, after this script. Each goes to the first worker as soon as it is read;
// that one unpacks and compiles while the page is read on, and hands the core on to the others.
let compiled = null;
function unpackIn(worker) {
  const pieces = document.getElementsByClassName('core');
  let sent = 0;
  const send = (end) => {
    for (; sent < (end ? pieces.length : pieces.length - 1); ++sent)
      worker.postMessage({ piece: pieces[sent].textContent });
    if (end) worker.postMessage({ piece: null });
  };
  if (document.readyState === 'loading') {
    const watch = new MutationObserver(() => send(false));  // the last may not be whole yet
    watch.observe(document.body, { childList: true });
    document.addEventListener('DOMContentLoaded', () => { watch.disconnect(); send(true); });
  } else send(true);
}

class CoreWorker {
  constructor() {
    this.files = {};
    this.waiting = new Map();
    this.number = 0;
    this.onprogress = () => {};
    this.worker = this.ready = null;
  }

  // When it is first needed: until then it holds up nothing else.
  begin() {
    const own = this.worker = new Worker(workerAddress);
    own.onmessage = ({ data }) => this.heard(data);
    own.onerror = (e) => {
      e.preventDefault();
      if (this.unpacking) this.unpacked.fail(new Error(e.message));
      this.failAll(e.message || 'the core stopped');
    };
    if (!compiled) {
      this.unpacking = true;
      this.ready = compiled = new Promise((done, fail) => { this.unpacked = { done, fail }; });
      unpackIn(own);
    } else this.ready = compiled.then((module) => {
      if (own === this.worker) own.postMessage({ module, files: this.files });
    });
  }

  heard(data) {
    if (data.progress !== undefined) { this.onprogress(data); return; }
    if (data.module || data.damaged) {
      this.unpacking = false;
      if (data.module) this.unpacked.done(data.module); else this.unpacked.fail(new Error(data.damaged));
      return;
    }
    const w = this.waiting.get(data.id);
    if (!w) return;
    this.waiting.delete(data.id);
    clearTimeout(w.timer);
    if (data.failed !== undefined) {
      w.fail(new Error(data.failed));
      this.restart();
    } else w.done(data.answer);
  }

  hold(files) {
    Object.assign(this.files, files);
    const own = this.worker;
    if (own) this.ready.then(() => { if (own === this.worker) own.postMessage({ files }); });
  }

  // Runs a job; if it takes longer than `limit` ms the worker is ended and started again, and the job fails.
  async run(job, more, limit = 0, transfer = []) {
    // A worker started again meanwhile has to be ready first.
    for (let ready = null; !this.worker || ready !== this.ready;) {
      if (!this.worker) this.begin();
      ready = this.ready;
      await ready;
    }
    const id = ++this.number;
    return new Promise((done, fail) => {
      const timer = limit ? setTimeout(() => this.restart('this took longer than ' + Math.round(limit / 1000) +
        ' seconds and was stopped'), limit) : 0;
      this.waiting.set(id, { done, fail, timer });
      this.worker.postMessage({ job, id, ...more }, transfer);
    });
  }

  ask(request, limit = 20000) { return this.run('ask', { request }, limit); }

  // The same for whoever presses a button: where files that came meanwhile began the core anew it is asked once more,
    and
  // what fails is told as a problem.
  async answer(request) {
    try {
      return await this.ask(request);
    } catch (error) {
      if (error.message !== 'stopped') return { problems: [{ text: error.message }] };
    }
    return this.ask(request).catch((error) => ({ problems: [{ text: error.message }] }));
  }

  failAll(why) {
    for (const w of this.waiting.values()) { clearTimeout(w.timer); w.fail(new Error(why)); }
    this.waiting.clear();
  }

  // What it was at is dropped; it begins anew when it is next needed.
  restart(why = 'stopped') {
    if (this.worker && !this.unpacking) {
      this.worker.terminate();
      this.worker = this.ready = null;
    }
    this.failAll(why);
  }

  stop() { if (this.worker) this.worker.postMessage({ stop: true }); }
}

const quick = new CoreWorker(), slow = new CoreWorker(), fine = new CoreWorker();
quick.begin();
