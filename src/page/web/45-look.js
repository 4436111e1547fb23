// Look: the boards alone on grey, for whoever is to choose. Side by side, two under one divider, or before and after.

function buildLook() {
  const bar = $('lookbar');
  const how = make('fieldset', { class: 'switch', id: 'look-how' }, make('legend', { text: t('look.how') }));
  const pair = ['left', 'right'].map((side, i) => {
    const s = make('select', { 'aria-label': t('look.' + side) });
    s.addEventListener('change', () => { look.pair[i] = Number(s.value); showLook(); });
    return s;
  });
  const hint = make('span', { class: 'hint', text: t('look.hold') });
  bar.append(how, make('span', { class: 'pair row' }, ...pair), hint,
    make('button', { type: 'button', id: 'look-end', text: t('look.close'), onclick: endLook }));
  choices(how, 'how', ['side', 'divider', 'before'].map((h) => [h, t('look.' + h)]), look.how,
    (v) => { look.how = v; showLook(); });
  look.show = () => {
    const names = job.seen.finishes.map((f) => f.name), key = JSON.stringify(names);
    look.pair = look.pair.map((i) => Math.min(i, names.length - 1));
    pair.forEach((s, i) => {
      if (s.dataset.key !== key) {
        s.dataset.key = key;
        s.replaceChildren(...names.map((n, v) => make('option', { value: String(v), text: n })));
      }
      s.value = String(look.pair[i]);
      s.hidden = look.how !== 'divider' || names.length < 3;
    });
    hint.hidden = look.how !== 'side';
    put(hint, t(years.age ? 'years.hold' : 'look.hold'));
    showChoice(how, look.how);
  };
  const slider = $('divider').firstElementChild;
  slider.setAttribute('aria-label', t('look.slide'));
  slider.addEventListener('input', () => slideDivider(Number(slider.value)));
  // Anywhere on the boards the divider follows the hand.
  const follow = (e) => {
    const r = canvasAt(0).getBoundingClientRect();
    slideDivider(Math.min(100, Math.max(0, 100 * (e.clientX - r.left) / r.width)));
  };
  $('boards').addEventListener('pointerdown', (e) => { if (overlaid()) { look.pulling = true; follow(e);
    $('boards').setPointerCapture(e.pointerId); } });
  $('boards').addEventListener('pointermove', (e) => { if (look.pulling && overlaid()) follow(e); });
  for (const end of ['pointerup', 'pointercancel']) $('boards').addEventListener(end, () => { look.pulling = false; });
  document.addEventListener('fullscreenchange', () => { if (look.full && !document.fullscreenElement) endLook(); });
}

function slideDivider(at) {
  look.at = at;
  $('wall').style.setProperty('--at', at + '%');
  const slider = $('divider').firstElementChild;
  slider.value = String(at);
  slider.setAttribute('aria-valuetext', Math.round(at) + ' %');
}

// While a board is held it shows its bare wood.
function holdable(b, i) {
  const hold = (on) => {
    if (!look.on || look.how !== 'side') on = false;
    if ((look.held === i) === on) return;
    look.held = on ? i : -1;
    refresh();
  };
  let waits = 0;
  b.addEventListener('pointerdown', () => { if (look.on) waits = setTimeout(() => hold(true), 160); });
  for (const end of ['pointerup', 'pointercancel', 'pointerleave', 'blur'])
    b.addEventListener(end, () => { clearTimeout(waits); if (look.held === i) hold(false); });
  b.addEventListener('contextmenu', (e) => { if (look.on) e.preventDefault(); });
  b.addEventListener('keydown', (e) => { if (look.on && (e.key === ' ' || e.key === 'Enter')) { e.preventDefault();
    hold(true); } });
  b.addEventListener('keyup', () => { if (look.held === i) hold(false); });
}

function showLook() {
  document.body.classList.toggle('looking', look.on);
  for (const part of [document.querySelector('.top'), $('pane')]) part.inert = look.on;
  $('lookbar').hidden = !look.on;
  look.held = -1;
  look.show();
  hang();
  $('divider').hidden = !overlaid();
  slideDivider(look.at);
  for (const c of $('boards').querySelectorAll('canvas')) { delete c.dataset.key; delete c.dataset.fine; }
  return refresh();
}

// Look is a page of its own to the browser: its Back leaves Look, and not the job.
function intoHistory() {
  if (!history.state || !history.state.look) history.pushState({ look: true }, '');
}
function outOfHistory() {
  if (!history.state || !history.state.look) return;
  look.leaving = true;
  history.back();
}
window.addEventListener('popstate', () => {
  const went = look.leaving, at = !!(history.state && history.state.look);
  look.leaving = false;
  if (went && look.on) intoHistory();  // begun again meanwhile
  else if (!at) endLook();
  else startLook();
});

function startLook() {
  if (look.on || !job.seen) return;
  look.on = true;
  if (!look.leaving) intoHistory();
  const others = job.shown.filter((i) => i !== job.chosen);
  look.pair = [job.chosen, others.length ? others[others.length - 1] : job.chosen].sort((a, b) => a - b);
  look.how = job.shown.length > 1 ? look.how : 'before';
  showLook();
  $('look-end').focus();
  if (document.documentElement.requestFullscreen) document.documentElement.requestFullscreen().then(() => {
    look.full = true; }, () => { /* a window that stays as it is will do */ });
}

function endLook() {
  if (!look.on) return;
  look.on = false;
  look.full = false;
  outOfHistory();
  if (document.fullscreenElement) document.exitFullscreen().catch(() => { /* gone already */ });
  showLook();
  $('look-go').focus();
}
