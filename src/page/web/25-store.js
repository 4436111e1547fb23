// What keeps jobs in this browser: one database, one record a job, written after every change that settles.

const store = {
  opened: null,
  open() {
    this.opened = this.opened || new Promise((done, fail) => {
      const r = indexedDB.open('foretone', 1);
      r.onupgradeneeded = () => r.result.createObjectStore('jobs', { keyPath: 'id' });
      r.onsuccess = () => done(r.result);
      r.onerror = () => fail(r.error);
      r.onblocked = () => fail(new Error('blocked'));
    });
    return this.opened;
  },
  // Does `act` with the records, and resolves to what its request found once all of it is written.
  async within(mode, act) {
    const base = await this.open();
    return new Promise((done, fail) => {
      const all = base.transaction('jobs', mode), asked = act(all.objectStore('jobs'));
      all.oncomplete = () => done(asked && asked.result);
      all.onerror = all.onabort = () => fail(all.error);
    });
  },
  async list() {
    const all = await this.within('readonly', (jobs) => jobs.getAll());
    return all.sort((a, b) => b.when - a.when);
  },
  forget(id) { return this.within('readwrite', (jobs) => jobs.delete(id)); },
  // A record that another window wrote since it was read here stays as it is: this one then gets a name of its own.
  async put(record, read) {
    await this.within('readwrite', (jobs) => {
      const before = jobs.get(record.id);
      before.onsuccess = () => {
        if (before.result && before.result.when !== read) record.id = newId();
        jobs.put(record);
      };
    });
    return record.id;
  },
};
const newId = () => Date.now().toString(36) + Math.random().toString(36).slice(2, 8);

// Settings of this screen; a browser that keeps none starts with the usual ones each time.
const setting = (name, usual) => {
  try { return localStorage.getItem('foretone.' + name) || usual; } catch { return usual; }
};
const keepSetting = (name, value) => { try { localStorage.setItem('foretone.' + name, value); } catch { /* none */ } };

// Off: what only makes better what is shown already (every pixel of the screen, how sure a color is) is not worked out
// by itself while nothing moves. For slow machines, and for tests of other things.
const worksAtRest = setting('at-rest', 'on') === 'on';

// Of each job this window has had: when its record was written, the text in it, and the text it began with.
const keeping = { id: newId(), jobs: new Map(), timer: 0, works: true };
const kept = (id = keeping.id) => {
  if (!keeping.jobs.has(id)) keeping.jobs.set(id, { when: 0, text: null, began: null });
  return keeping.jobs.get(id);
};

// A job that was just begun or opened is kept from its first change on; one made here at once.
function beginKeeping(text, made, record) {
  keeping.id = record ? record.id : newId();
  if (!record) kept().began = made ? null : text;
  else if (record.when) Object.assign(kept(), { when: record.when, text });
}

function keepLater() {
  clearTimeout(keeping.timer);
  keeping.timer = setTimeout(keep, 400);
  drawKept();
}

async function keep() {
  clearTimeout(keeping.timer);
  const { text, file, files } = job, { id } = keeping, one = kept();
  if (!job.seen || text === one.text || (text === one.began && !one.when)) return;
  const record = { id, text, file, files, title: job.seen.title, when: Math.max(Date.now(), one.when + 1),
    picture: smallPicture() };
  const was = one.when;
  Object.assign(one, { when: record.when, text });
  try {
    const at = await store.put(record, was);
    if (at !== id) {
      keeping.jobs.set(at, { ...one });
      if (keeping.id === id) keeping.id = at;
    }
    keeping.works = true;
  } catch {
    Object.assign(one, { when: was, text: null });
    keeping.works = false;
  }
  drawKept();
}

const isKept = () => job.saved.has(job.text) || job.text === kept().text || job.text === kept().began;

// Beside the name of the job: where it lies.
function drawKept() {
  const at = job.saved.has(job.text) ? (job.text === kept().began ? 'fresh' : 'file')
    : keeping.works ? 'here' : 'not';
  put($('kept'), t('kept.' + at));
}

// The boards as they stand, for the list of earlier jobs.
function smallPicture() {
  const boards = [...document.querySelectorAll('#boards canvas')].filter((b) => b.width);
  if (!boards.length) return '';
  const canvas = make('canvas'), c = canvas.getContext('2d');
  canvas.width = 216;
  canvas.height = 96;
  c.fillStyle = '#828282';
  c.fillRect(0, 0, 216, 96);
  const wide = (216 - 6) / boards.length;
  boards.forEach((b, i) => {
    // As much of each board as fits, without squeezing it.
    const scale = Math.max((wide - 6) / b.width, 84 / b.height), w = (wide - 6) / scale, h = 84 / scale;
    c.drawImage(b, (b.width - w) / 2, (b.height - h) / 2, w, h, 6 + i * wide, 6, wide - 6, 84);
  });
  return canvas.toDataURL('image/jpeg', 0.85);
}
