// Pictures of the page for whoever looks through the project: both modes, light and dark, four widths. Judges nothing.
//   node tour.mjs FOLDER
import { after, done, open, openScene, refined } from './drive.mjs';

const folder = process.argv[2] || 'out/tour';
const only = process.argv[3] || '';

for (const [width, height] of [[390, 844], [1024, 768], [1440, 900], [2560, 1440]])
  for (const dark of [false, true]) {
    const name = `${folder}/page-${width}-${dark ? 'dark' : 'light'}`;
    if (!name.includes(only)) continue;
    const page = await open({ width, height, dark, still: true });
    await after(page, () => openScene(page, 'stool-maple.toml'));
    await refined(page);
    await page.screenshot({ path: name + '-work.jpg', type: 'jpeg', quality: 62 });
    await after(page, () => page.click('#look-go'));
    await after(page, () => page.locator(`input[name=how][value=${dark ? 'divider' : 'side'}]`).click({ force: true }));
    await refined(page);
    await page.screenshot({ path: name + '-look.jpg', type: 'jpeg', quality: 62 });
    await page.context().close();
  }
await done();
