// Pictures of the page for whoever looks through the project: both modes, light and dark, four widths. Judges nothing.
//   node tour.mjs FOLDER
import { after, done, open, openScene, refined, task } from './drive.mjs';

const folder = process.argv[2] || 'out/tour';
const only = process.argv[3] || '';

for (const [width, height] of [[390, 844], [1024, 768], [1440, 900], [2560, 1440]])
  for (const dark of [false, true]) {
    const name = `${folder}/page-${width}-${dark ? 'dark' : 'light'}`;
    if (!name.includes(only)) continue;
    const page = await open({ width, height, dark, still: true, rest: true });
    await after(page, () => openScene(page, 'stool-maple.toml'));
    await refined(page);
    await page.screenshot({ path: name + '-work.jpg', type: 'jpeg', quality: 62 });
    await after(page, () => page.click('#look-go'));
    await after(page, () => page.locator(`input[name=how][value=${dark ? 'divider' : 'side'}]`).click({ force: true }));
    await refined(page);
    await page.screenshot({ path: name + '-look.jpg', type: 'jpeg', quality: 62 });
    await page.close();
  }

// What may be tried for a match, with the target lying on the boards; and a first board to be read in, in German.
for (const [name, scene, pane, more] of [['1440-light-match', 'chest-ash.toml', 'p-match', { height: 900 }],
  ['390-light-boards-de', 'stool-maple.toml', 'p-boards', { width: 390, height: 844, locale: 'de-DE' }]]) {
  if (!(folder + '/page-' + name).includes(only)) continue;
  const page = await open({ still: true, rest: true, ...more });
  await after(page, () => openScene(page, scene));
  await task(page, pane);
  for (const d of await page.locator('#p-match .choices > summary, #p-match [data-room=dye] > summary').all())
    if (pane === 'p-match') await d.click();
  await page.locator('#' + pane + (pane === 'p-match' ? ' .choices' : ' h3')).first().evaluate((e) =>
    e.scrollIntoView());
  await refined(page);
  await page.screenshot({ path: `${folder}/page-${name}.jpg`, type: 'jpeg', quality: 62 });
}
await done();
