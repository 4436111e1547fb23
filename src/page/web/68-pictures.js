// Pictures out: the boards as they hang, each pixel as drawn, as PNG files that say they are sRGB.

// Without that mark a program may take the numbers for another screen's. It comes right after the head of the file;
// intent 0, perceptual.
const srgbChunk = [0, 0, 0, 1, 115, 82, 71, 66, 0, 174, 206, 28, 233];
// The dots of a sheet of paper, 7874 a metre (200 an inch), so that it is as large as the paper.
const paperDots = [0, 0, 0, 9, 112, 72, 89, 115, 0, 0, 30, 194, 0, 0, 30, 194, 1, 110, 208, 117, 62];
async function markedPng(canvas, more = []) {
  const bytes = new Uint8Array(await (await new Promise((done) => canvas.toBlob(done, 'image/png'))).arrayBuffer());
  const head = 33;  // signature and IHDR
  return new Blob([bytes.subarray(0, head), new Uint8Array([...srgbChunk, ...more]), bytes.subarray(head)],
    { type: 'image/png' });
}

function wallPicture(only) {
  const all = [...$('boards').children].filter((b, i) => only === undefined || i === only).map((b) =>
    ({ canvas: b.querySelector('canvas'), name: b.querySelector('.name').textContent }));
  const ratio = window.devicePixelRatio || 1, gap = Math.round(16 * ratio), line = Math.round(22 * ratio);
  const together = overlaid(), wide = all.map((b) => b.canvas.width),
    high = Math.max(...all.map((b) => b.canvas.height));
  const canvas = make('canvas'), c = canvas.getContext('2d');
  canvas.width = together ? wide[0] + 2 * gap : wide.reduce((a, w) => a + w + gap, gap);
  canvas.height = high + 2 * gap + 3 * line;
  c.fillStyle = '#828282';
  c.fillRect(0, 0, canvas.width, canvas.height);
  c.fillStyle = '#0d0d0d';
  let x = gap;
  all.forEach((b, i) => {
    c.font = '600 ' + Math.round(15 * ratio) + 'px Lato, sans-serif';
    if (together) {
      const from = i === 0 ? 0 : Math.round(wide[0] * look.at / 100);
      c.drawImage(b.canvas, from, 0, wide[0] - from, high, gap + from, gap, wide[0] - from, high);
      c.textAlign = i === 0 ? 'left' : 'right';
      c.fillText(b.name, i === 0 ? gap : gap + wide[0], high + gap + line, wide[0] / 2 - gap);
    } else {
      c.drawImage(b.canvas, x, gap);
      c.fillText(b.name, x, high + gap + line, wide[i]);
      x += wide[i] + gap;
    }
  });
  c.textAlign = 'left';
  c.font = Math.round(13 * ratio) + 'px Lato, sans-serif';
  c.fillText(job.seen.title + ' · ' + lightName(job.light) + '. ' + t('picture.small'), gap, high + gap + 2.4 * line,
    canvas.width - 2 * gap);
  return canvas;
}

async function savePicture(what) {
  await refined();
  const canvas = wallPicture(what === 'board' ? Math.max(0, job.shown.indexOf(job.chosen)) : undefined);
  const name = stem() + '-' + what + '.png';
  download(await markedPng(canvas), name, 'image/png');
  say(t('picture.done', { name }));
}
