// The page begins.

function drawAll() {
  drawSwitches();
  drawBoards();
  drawStacks();
  drawSure();
  for (const p of panels) if (p.show) p.show();
  for (const r of document.querySelectorAll('.result')) r.show();
  const title = $('title');
  if (document.activeElement !== title) title.value = job.seen.title;
  document.title = job.seen.title + ' · Foretone';
  $('undo').disabled = job.history.length === 0;
  $('redo').disabled = job.future.length === 0;
}

async function begin() {
  // How high the boards stand, so that what has the focus is never under them.
  new ResizeObserver(() => document.documentElement.style.setProperty('--held', $('boards').offsetHeight + 'px')).observe($('boards'));
  $('open').addEventListener('click', () => $('files').click());
  $('files').addEventListener('change', async () => { await openFiles([...$('files').files]); $('files').value = ''; });
  $('save').addEventListener('click', save);
  $('undo').addEventListener('click', undo);
  $('redo').addEventListener('click', redo);
  $('title').addEventListener('change', () => { if ($('title').value !== job.seen.title) change([{ do: 'title', value: $('title').value.trim() || 'A job' }]); });
  $('wood').addEventListener('change', () => { if ($('wood').value) change([{ do: 'table', name: 'wood', keys: { use: $('wood').value } }]); });
  $('cut').addEventListener('change', () => { job.cut = $('cut').value; refresh(); });
  $('view').addEventListener('change', () => { job.view = $('view').value; refresh(); });
  $('print').addEventListener('click', () => { $('sheet').contentWindow.focus(); $('sheet').contentWindow.print(); });
  $('keep').addEventListener('click', () => download($('sheet').srcdoc, paperFile, 'text/html'));
  document.addEventListener('keydown', (e) => {
    const typing = e.target.matches && e.target.matches('input[type=text]');
    if ((e.ctrlKey || e.metaKey) && e.key.toLowerCase() === 'z' && !typing) { e.preventDefault(); if (e.shiftKey) redo(); else undo(); }
    if ((e.ctrlKey || e.metaKey) && e.key === 'y' && !typing) { e.preventDefault(); redo(); }
    if ((e.ctrlKey || e.metaKey) && e.key === 's') { e.preventDefault(); save(); }
    if ((e.ctrlKey || e.metaKey) && e.key === 'o') { e.preventDefault(); $('files').click(); }
  });
  document.addEventListener('dragover', (e) => e.preventDefault());
  document.addEventListener('drop', (e) => { e.preventDefault(); openFiles([...e.dataTransfer.files]); });
  window.addEventListener('beforeunload', (e) => { if (!job.saved.has(job.text)) e.preventDefault(); });
  let resized = 0;
  window.addEventListener('resize', () => { clearTimeout(resized); resized = setTimeout(() => job.seen && refresh(), 150); });

  try {
    opened.set(0, 0);
    await load($('scene').textContent, 'job.toml');
    performance.mark('first-board');
    // What there is to choose from follows; nobody has touched anything yet.
    job.shelf = await quick.ask({ do: 'shelf' });
    buildJobs();
    structure = '';
    drawAll();
    document.body.dataset.ready = '1';
  } catch (error) {
    trouble([{ text: 'Foretone could not start: ' + error.message + '. It needs a browser of 2023 or later.' }]);
  }
}
begin();
