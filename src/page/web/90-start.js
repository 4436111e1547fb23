// The page begins.

// Each part by itself: one that cannot be drawn keeps no other from it.
function drawAll() {
  attempt('Drawing the switches', drawSwitches);
  attempt('Drawing the boards', drawBoards);
  attempt('Drawing the layers', drawStacks);
  attempt('Saying how sure a color is', drawSure);
  for (const p of panels) if (p.show) attempt('Drawing “' + p.querySelector('h2').textContent + '”', p.show);
  for (const r of document.querySelectorAll('.result')) attempt('Drawing a result', r.show);
  attempt('Drawing the head of the page', () => {
    const title = $('title');
    if (document.activeElement !== title) title.value = job.seen.title;
    document.title = job.seen.title + ' · Foretone';
    $('undo').disabled = job.history.length === 0;
    $('redo').disabled = job.future.length === 0;
  });
}

// What no task has caught. A fault without an error is the browser's own notice of a drawing put off.
window.addEventListener('error', (e) => { if (e.error) { e.preventDefault(); fault('The last thing done', e.error);
  } });
window.addEventListener('unhandledrejection', (e) => { e.preventDefault(); fault('The last thing done', e.reason); });

async function begin() {
  // How high the boards stand, so that what has the focus is never under them.
  new ResizeObserver(() => document.documentElement.style.setProperty('--held',
    $('boards').offsetHeight + 'px')).observe($('boards'));
  $('open').addEventListener('click', () => $('files').click());
  $('files').addEventListener('change', async () => { await openFiles([...$('files').files]); $('files').value = ''; });
  $('save').addEventListener('click', save);
  $('undo').addEventListener('click', undo);
  $('redo').addEventListener('click', redo);
  $('title').addEventListener('change', () => { if ($('title').value !== job.seen.title) change(
    [{ do: 'title', value: $('title').value.trim() || 'A job' }]); });
  $('wood').addEventListener('change', () => { if ($('wood').value) change(
    [{ do: 'table', name: 'wood', keys: { use: $('wood').value } }]); });
  $('cut').addEventListener('change', () => { job.cut = $('cut').value; refresh(); });
  $('view').addEventListener('change', () => { job.view = $('view').value; refresh(); });
  $('print').addEventListener('click', () => { $('sheet').contentWindow.focus(); $('sheet').contentWindow.print(); });
  $('keep').addEventListener('click', () => download($('sheet').srcdoc, paperFile, 'text/html'));
  document.addEventListener('keydown', (e) => {
    const typing = e.target.matches && e.target.matches('input[type=text]');
    if ((e.ctrlKey || e.metaKey) && e.key.toLowerCase() === 'z' && !typing) { e.preventDefault();
      if (e.shiftKey) redo(); else undo(); }
    if ((e.ctrlKey || e.metaKey) && e.key === 'y' && !typing) { e.preventDefault(); redo(); }
    if ((e.ctrlKey || e.metaKey) && e.key === 's') { e.preventDefault(); save(); }
    if ((e.ctrlKey || e.metaKey) && e.key === 'o') { e.preventDefault(); $('files').click(); }
  });
  document.addEventListener('dragover', (e) => e.preventDefault());
  document.addEventListener('drop', (e) => { e.preventDefault(); openFiles([...e.dataTransfer.files]); });
  window.addEventListener('beforeunload', (e) => { if (!job.saved.has(job.text)) e.preventDefault(); });
  let resized = 0;
  window.addEventListener('resize', () => { clearTimeout(resized);
    resized = setTimeout(() => job.seen && refresh(), 150); });

  try {
    opened.set(0, 0);
    await load($('scene').textContent, 'job.toml');
    performance.mark('first-board');
    // What there is to choose from follows; nobody has touched anything yet.
    job.library = await quick.ask({ do: 'materials' });
    buildJobs();
    structure = '';
    drawAll();
    document.body.dataset.ready = '1';
  } catch (error) {
    trouble([{ text: 'Foretone could not start: ' + error.message + '. It needs a browser of 2023 or later.' }]);
  }
}
begin();
