// The page's words in English: another language is another table of the same names. {x} is filled in. Words that need
// no name of their own stand where they are used, and are their own name.

const english = {
  'task.layers': 'Layers', 'task.p-target': 'Target', 'task.p-coats': 'Coats', 'task.p-match': 'Match',
    'task.p-boards': 'Boards',
  'task.p-amounts': 'Amounts', 'task.p-photo': 'Photo', 'task.p-paper': 'Print', 'task.p-sure': 'Sure?',
  'task.p-cautions': 'Care',
  'tasks': 'Tasks',
  'zoom.out': 'Show more wood', 'zoom.in': 'Show wood larger', 'zoom.true': 'True size',
  'zoom.mark': '{n} mm of wood', 'zoom.is-true': 'true size',
  'look.side': 'Side by side', 'look.divider': 'Divider', 'look.before': 'Before and after',
  'look.how': 'How the boards stand', 'look.left': 'Left', 'look.right': 'Right', 'look.close': 'Back to work',
  'look.hold': 'Hold a board to see its bare wood.', 'look.slide': 'Where the divider stands, percent',
  'look.bare': 'bare wood',
  'years.age': 'Age', 'years.where': 'Where it stands', 'years.new': 'new', 'years.in': 'in {time}',
  'years.target': 'New: ',
  'years.after': 'after {time} {where}', 'years.hold': 'Hold a board to see it new.',
  'years.range': 'What such pieces may be then, pale to dark: nine of ten lie between',
  'years.key': 'bar: 9 of 10 such pieces, pale to dark',
  'years.wait': 'how far pieces may differ is being worked out …',
  'years.figures': 'ΔE {de} from new (alone: wood {wood}, film {film}, dye {dye}); 9 of 10 within ΔE {range}',
  'years.class': 'Known for its kind of wood: {meaning}.',
  'years.class.none': 'Nothing published was found for its kind of wood: {meaning}.',
  'kept.file': 'saved in a file', 'kept.here': 'kept in this browser, not in a file yet',
  'kept.not': 'not saved: this browser keeps nothing, save to a file', 'kept.fresh': '',
  'back': '“{title}” is as you left it. New begins another.',
  'start.wood': 'The wood', 'start.own': 'What have you got?',
  'start.beside': 'Beside them the same coats without dye', 'start.go': 'Begin',
  'start.none': 'Tick at least one oil, sealer, topcoat or wax.',
  'start.zero': 'From nothing: tick what you have got; each dye goes under each clear coat.',
  'start.one': '1 board: {names}.', 'start.some': '{n} boards: {names}.',
  'start.many': '{n} boards can be made of this; the first {most} are: {names}.',
  'start.title': 'New job', 'start.examples': 'Begin with an example', 'start.nothing': 'Or from nothing',
    'start.earlier': 'Earlier jobs',
  'start.noearlier': 'None yet: what you change is kept here by itself.', 'start.open': 'Open', 'start.forget':
    'Forget',
  'start.opened': '{title} is open; Undo brings back the job before it.',
  'example.stool-maple': 'A maple stool three ways: clear, shellac alone, and dyed. See how much of the look each ' +
    'step brings.',
  'example.desk-walnut': 'Oil varnish or waterborne on walnut? They part under lamp light more than by day.',
  'example.blotch-pine': 'Pine that blotches under a dye, and what a wash coat does about it.',
  'example.linseed-then-waterborne': 'A schedule that will not hold: oil that has not cured under waterborne. See ' +
    'why, and the mend.',
  'why.bare': ['Why does bare wood look pale?', 'Its dry surface is full of tiny gaps with air in them. They scatter ' +
    'light ' +
    'back before it has gone deep into the wood, so what you see is mixed with white.'],
  'why.damp': ['Why does it look finished while damp?', 'The liquid fills the gaps of the surface as a coat does, so ' +
    'light ' +
    'goes deeper before it comes back. It is the cheapest preview of a clear coat there is.'],
  'why.dry': ['Why does dye look dead when dry?', 'As the liquid leaves, air comes back into the surface and ' +
    'scatters white ' +
    'light over the color. The dye is still there: the first coat fills the gaps and the color comes back.'],
  'why.coated': ['Why does the first coat change so much?', 'It fills the surface and the air is gone. Coats after ' +
    'it add film, ' +
    'and the tint of that film, but no such jump.'],
  'why.finished': ['Why is my board not quite this?', 'Boards, cans and hands differ. Under “Sure?” stands how far ' +
    'real boards ' +
    'may lie off and what it would help most to measure. Make one board before the job.'],
  'link.ask': 'This link brings a job with it: “{title}”. Open it? The job at hand stays under Earlier jobs if you ' +
    'changed it.',
  'link.yes': 'Open it', 'link.no': 'Leave it', 'link.bad': 'the link carries no job that can be read',
  'link.files': 'a link carries the recipe alone; this job needs files of its own ({names}): save it to a file instead',
  'link.long': 'this job is too long for a link: save it to a file instead',
  'link.here': 'Whoever opens this link sees the job; it lies in the link itself and on no server.',
  'link.disk': 'This page was opened from disk, so the link works on this computer only. For somebody else save the ' +
    'job to a file and send that, or make the link where the page stands on a site.',
  'link.save': 'Save the job to a file',
  'link.title': 'Link to this job', 'link.copy': 'Copy', 'link.copied': 'The link is copied.',
  'drop.reading': '{name} is a reading. Of what?', 'drop.wood': 'Of the bare wood', 'drop.target':
    'Of the target to meet',
  'drop.first': 'Of the first finished board', 'drop.step': 'Of a step board', 'drop.no': 'Put it away',
    'drop.geometry': 'How it was read', 'drop.isin':
    '{name} is now the {what}; Undo takes it back.',
  'drop.what.wood': 'wood', 'drop.what.target': 'target',
  'drop.shelf': 'The materials of {name} are on the shelf: {names}.',
  'picture.wall': 'the wall', 'picture.board': 'the chosen board', 'picture.done': '{name} is among your downloads.',
  'picture.small': 'Computed colors: screens and prints are not the sample.',
  'open.missing': 'Choose {names}',
  'paper.what': 'The client’s sheet shows the finishes on the wall; the bench card is for the one chosen there, for ' +
    'the area under Amounts.',
  'paper.english': '',
  'photo.how': 'Lay a white or grey card beside the bare board, in even daylight, and photograph both. Without a ' +
    'card no color can be promised.',
  'photo.marks': 'A frame is drawn in one go; for other shapes touch corner after corner, and near the first to end. ' +
    'Without parts to finish, all that looks like the wood is finished.',
  'photo.even': 'The light was even: what changes over the board is the wood’s own',
  'geometry.45/0': 'at 45° (45/0)', 'geometry.d/8-included': 'in a sphere, shine included (d/8)',
  'geometry.d/8-excluded': 'in a sphere, shine left out (d/8)',
  'observer.2deg': '2°', 'observer.10deg': '10°',
  'target.title': 'Target', 'target.which': 'The target', 'target.finish': 'One of the finishes',
  'target.screen': 'A color on the screen', 'target.use': 'Use it', 'target.no': 'no target',
  'target.none': 'No target is chosen: choose what the finish should look like.', 'target.now': 'Target: {name}',
  'target.reading': 'A reading', 'target.of-reading': 'of the reading', 'target.light': 'Light',
  'target.observer': 'Observer', 'target.file': 'A file of readings: drop it here, or Open it.',
  'target.piece': 'It is', 'target.same': 'a control on the same board', 'target.another': 'another piece',
  'judge': 'How colors are judged', 'judge.lights': 'Under these lights (up to eight)', 'judge.observer': 'Observer',
  'judge.geometry': 'Read',
  'match.have': 'What have you got? Ways to mix and lay it on are tried, all of them.', 'match.more': 'Every choice',
  'match.how': 'Several values with blanks between: 1 1.5 2; a range: 1–3; in steps: 20–200 / 20. Nothing: as usual.',
  'match.most_steps': 'Steps at most', 'match.most_uneven': 'Blotches at most, ΔE', 'match.may': 'In the recipe',
  'match.no': 'left out', 'match.yes': 'may be used', 'match.always': 'always used', 'match.use': 'One of these',
  'match.usual': 'as usual', 'match.at_once': 'Dyes in one mix, at most',
    'match.most_parts': 'Parts of one dye, at most',
  'match.water': 'Parts of liquid to one of dye', 'match.wet_g_per_m2': 'Wet amount, g/m²', 'match.coats': 'Coats',
  'match.method': 'Put on', 'match.sheen_gu60': 'Sheen, gloss', 'match.cut_lb': 'Cut, lb',
  'match.untinted': 'nothing', 'match.tint': 'Tinted with', 'match.tint_percent': 'Powder, % by weight',
  'match.remainder': 'Share left when wiped, 0–1', 'match.passes': 'Passes', 'match.toner_strength': 'Strength',
  'match.room.dye': 'Dye', 'match.room.stain': 'Stain', 'match.room.oil': 'Oil', 'match.room.sealer': 'Sealer',
  'match.room.glaze': 'Glaze', 'match.room.toner': 'Toner', 'match.room.topcoat': 'Topcoat',
  'match.keep': 'Keep these choices in the job', 'match.kept': 'The job says now what may be used.',
  'match.target': 'Choose a target first.',
  'boards.title': 'What boards teach', 'boards.why': 'Library figures are typical; your cans and boards are real. ' +
    'Readings of them mend the next board, and make materials of your own.',
  'boards.correct': 'The first board came out otherwise',
    'boards.of-board': 'The board carries “{name}”. How does it read?',
  'boards.fit': 'Learn from a step board',
    'boards.of-finish': 'A board of “{name}”, read bare and after each coat; or ' +
    'drop a boards file here. Rows may stay empty.',
  'boards.bare-wood': 'bare wood', 'boards.file': 'Readings in a file', 'boards.without': 'Type them instead',
    'boards.holds': '{name}, readings: {n}',
  'boards.after': 'after step {step} ({name}), coat {coat}', 'boards.of': 'of {state}', 'boards.finished':
    'the finished board', 'boards.which': 'Which reading is {state}?', 'boards.notread': 'not read',
  'boards.by': 'Whose boards, read when', 'boards.by.hint': 'our own boards, read 2026-03-02',
  'boards.own': 'own boards, read for this job', 'boards.learn': 'Learn from it', 'boards.working':
    'Working out what the readings tell',
  'boards.near': 'as the fit says', 'boards.off': 'off by more than noise', 'boards.take':
    'Use these materials in this job',
  'boards.taken': 'The job uses now {names}; Undo takes it back.', 'boards.fitted':
    '{n} readings tell of {names}. Everything else stays as the library says.',
  'boards.reading': 'Reading', 'boards.read': 'Read', 'boards.predicted': 'Predicted', 'boards.how': 'How it fits',
  'boards.table': 'Each reading and what the learned materials say', 'boards.material': 'Material', 'boards.figure':
    'Figure', 'boards.library': 'Library', 'boards.value': 'Learned', 'boards.range': '95 of 100 lie between',
  'boards.figures': 'What was learned', 'boards.save': 'Save as file',
  'boards.sample': 'The finished board is', 'boards.bare': 'The same board bare is', 'boards.buy':
    'Dyes that are not on hand may be bought', 'boards.correct.go': 'What would mend it?',
  'boards.as-predicted': 'The board is what was predicted, as near as boards come.', 'boards.not-predicted':
    'The board is not what was predicted: what the reading says of the materials is allowed for below.',
  'boards.done': 'It is as near to the target as another board would be: change nothing.', 'boards.against':
    'Against {target} it is {words}.',
  'boards.use': 'Put it on the wall', 'boards.expected': 'ΔE {de} to the target at worst, ± {spread}',
  'boards.compared': 'The board, what was predicted, and the target', 'boards.nothing':
    'No single change brings it nearer.', 'boards.this-board': 'On this board as it stands:',
  'bundle.save': 'Save all in one file', 'bundle.saved': '{name} is saved among your downloads, {n} files in one.',
  'bundle.beside': 'It needs {names} beside it: “Save all in one file” under More keeps them together.',
  'bundle.damaged': 'this zip is damaged, or packed in an unusual way; save the job again',
  'bundle.many': 'there are {n} files in it; a job has 64 at most',
  'bundle.name': 'it holds “{name}”; a job’s files lie in its zip without folders, under plain names, each once',
  'bundle.large': '“{name}” makes it larger than a job can be (128 MB, one file 64 MB)',
  'language': 'Language', 'starting': 'The first boards are being worked out …',
  'differ': '{words}.',
  'rests': 'The weakest figures behind it are {what}.', 'rests.measured': 'measured', 'rests.published': 'published',
  'rests.computed': 'computed', 'rests.practice': 'common practice', 'rests.memory': 'from memory',
  'rests.fitted': 'fitted', 'rests.stated': 'as stated',
};
// The languages on offer, each under its own name. What is in none of the tables is its own key: English.
const languages = { en: ['English', english], de: ['Deutsch', german], fr: ['Français', french] };
const languageId = (() => {
  let chosen = '';
  try { chosen = localStorage.getItem('foretone.language'); } catch { /* nothing is kept here */ }
  return chosen in languages ? chosen
    : Object.keys(languages).find((id) => (navigator.language || '').toLowerCase().startsWith(id)) || 'en';
})();
const [, language] = languages[languageId], decimalSign = languageId === 'en' ? '.' : ',';
// A name within a sentence: German nouns keep their capital.
const inText = (name) => (languageId === 'de' ? name : name.toLowerCase().replace(/\bled\b/g, 'LED'));

const t = (key, fill = {}) => {
  const text = [language, english].map((table) => table[key]).find((v) => v !== undefined);
  const put = (s) => s.replace(/\{(\w+)\}/g, (_, name) => String(fill[name]));
  return text === undefined ? put(key) : Array.isArray(text) ? text.map(put) : put(text);
};
// One thing, or many of them.
const several = (n, one, many = one + 's') => n + ' ' + t(n === 1 ? one : many);

// The words that stand in the page from the beginning.
function translateStanding() {
  document.documentElement.lang = languageId;
  if (languageId === 'en') return;
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT, (n) => (n.parentElement.closest('script')
    ? NodeFilter.FILTER_REJECT : NodeFilter.FILTER_ACCEPT));
  while (walk.nextNode()) {
    const [, before, words, end] = walk.currentNode.data.match(/^(\s*)([^]*?)(\s*)$/);
    if (words in language) walk.currentNode.data = before + t(words) + end;
  }
  for (const e of document.querySelectorAll('[aria-label], [title]'))
    for (const name of ['aria-label', 'title'])
      if (e.hasAttribute(name)) e.setAttribute(name, t(e.getAttribute(name)));
}
