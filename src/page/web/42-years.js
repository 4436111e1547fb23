// Years: the finished boards as light will have made them, where the piece stands. A range, and never one color.

const years = { age: '', known: null, failed: '', timer: 0 };

// Only finished boards age: a stage on the way is the bench's and is over in a day.
const agedPlace = (finish) => (years.age && job.stage === 'finished' && !job.pinned.has(finish)
  ? { after: years.age } : {});
const agedOf = (finish) => (agedPlace(finish).after && job.seen.finishes[finish].aged) || null;
const agedWords = (aged) => t('years.after', { time: t(aged.after), where: t(job.seen.times.where) });

function setAge(age) {
  years.age = age;
  if (age) { job.stage = 'finished'; job.pinned.clear(); }
  refresh();
}

function buildYears() {
  const slider = make('input', { type: 'range', min: '0', max: '1', step: '1', value: '0', id: 'age',
    'aria-label': t('years.age') });
  const told = make('output', { for: 'age' });
  const where = make('select', { 'aria-label': t('years.where') });
  slider.addEventListener('input', () => setAge(years.stops[Number(slider.value)]));
  where.addEventListener('change', () => change([{ do: 'table-key', name: 'look', key: 'exposure',
    value: where.value }]));
  $('years').append(make('span', { class: 'tag', text: t('years.age') }), slider, told, where);
  years.show = () => {
    const { after, exposure, places: spots } = job.seen.times;
    years.stops = ['', ...after];
    if (!years.stops.includes(years.age)) years.age = '';
    slider.max = String(after.length);
    const at = String(years.stops.indexOf(years.age));
    if (slider.value !== at) slider.value = at;
    const words = years.age ? t('years.in', { time: t(years.age) }) : t('years.new');
    document.body.classList.toggle('aged', !!years.age);
    put(told, words);
    slider.setAttribute('aria-valuetext', words);
    if (!where.children.length) where.append(...spots.map((p) => make('option', { value: p.id, text: t(p.name),
      title: p.meaning })));
    where.value = exposure;
    // Its room stays free: nothing beside it moves while the slider is pulled.
    where.style.visibility = years.age ? '' : 'hidden';
  };
}
function drawYears() { years.show(); }

// What is known of the age shown, if it is of the job as it stands.
const yearsKey = () => JSON.stringify([job.text, job.file, years.age, job.light]);
const knownYears = (finish) => (years.known && years.known.key === yearsKey() ? years.known.finishes[finish] : null);

// Below a board: pale to dark, what such pieces may be then. No finish: the board shows none of its age.
function drawRange(box, finish) {
  const aged = finish === null ? null : agedOf(finish), known = aged && knownYears(finish);
  box.hidden = box.nextSibling.hidden = overlaid() ? !years.age : !aged;  // two boards on one spot stay of one size
  const key = known ? years.known.key + finish : '';
  if (box.dataset.key === key) return;
  box.dataset.key = key;
  box.replaceChildren(...(known ? known.outcomes.map((h) => colored(h)) : []));
  if (known) box.title = t('years.range');
}

// One line on the chosen finish: how far pieces may differ then, and what of the change is wood, film and dye.
function yearsLine(finish) {
  const aged = agedOf(finish), known = aged && knownYears(finish);
  if (!aged) return '';
  if (!known) return agedWords(aged) + ': ' + t('years.wait');
  const { wood, film, dye } = known.parts_dE00, f = (v) => fixed(v, 1);
  return agedWords(aged) + ': ' + (numbers() ? t('years.figures', { de: f(known.from_new_dE00),
    range: f(known.dE00_90), wood: f(wood), film: f(film), dye: f(dye) })
    : known.spread_words + '; ' + known.parts_words) + '. ' +
    t(years.known.wood.published ? 'years.class' : 'years.class.none', { meaning: years.known.wood.meaning });
}

// Asked of the slow core when nothing moves, after how sure the new board is.
async function askYears() {
  clearTimeout(years.timer);
  const key = yearsKey();
  if (!years.age || !job.seen || years.failed === key || (years.known && years.known.key === key)) return;
  if (!slow.busy) {
    const { text } = job;
    try {
      slow.busy = 'sure';
      const out = await slow.ask({ do: 'years', text: job.text, file: job.file, after: years.age, light: job.light },
        60000);
      if (out.problems) years.failed = key;
      else if (key === yearsKey()) {
        years.known = { ...out, key };
        drawAll();
      }
    } catch (error) { if (error.message !== 'stopped') years.failed = key; }  // the next change asks again
    if (slow.busy === 'sure') slow.busy = '';
    if (text !== job.text) return later();
  }
  if (key !== yearsKey() || ((!years.known || years.known.key !== key) && years.failed !== key))
    years.timer = setTimeout(askYears, 700);
}
