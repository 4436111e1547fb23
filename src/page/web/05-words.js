// The page's words in English, one table: another language is another table of the same names. {x} is filled in.

const english = {
  'task.layers': 'Layers', 'task.p-target': 'Target', 'task.p-coats': 'Coats', 'task.p-match': 'Match',
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
  'years.wait': 'how far pieces may differ is being worked out …',
  'years.figures': 'ΔE {de} from new (alone: wood {wood}, film {film}, dye {dye}); 9 of 10 within ΔE {range}',
  'years.class': 'Known for its kind of wood: {meaning}.',
  'years.class.none': 'Nothing published was found for its kind of wood: {meaning}.',
  'kept.file': 'saved in a file', 'kept.here': 'kept in this browser, not in a file yet',
  'kept.not': 'not saved: this browser keeps nothing, save to a file', 'kept.fresh': '',
  'back': '“{title}” is as you left it. New begins another.',
  'start.wood': 'The wood', 'start.own': 'What have you got?', 'start.want': 'What do you want to see?',
  'start.clear': 'The wood’s own color, finished clear', 'start.color': 'The wood colored',
  'start.both': 'Both, side by side', 'start.go': 'Begin', 'start.none':
    'Tick at least one oil, sealer, topcoat or wax.',
  'start.nodye': 'Tick at least one dye to color the wood with.',
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
  'link.title': 'Link to this job', 'link.copy': 'Copy', 'link.copied': 'The link is copied.',
  'drop.reading': '{name} is a reading. Of what?', 'drop.wood': 'Of the bare wood', 'drop.target':
    'Of the target to meet',
  'drop.no': 'Put it away', 'drop.geometry': 'How it was read', 'drop.isin':
    '{name} is now the {what}; Undo takes it back.',
  'drop.what.wood': 'wood', 'drop.what.target': 'target',
  'drop.shelf': 'The materials of {name} are on the shelf: {names}.',
  'picture.wall': 'the wall', 'picture.board': 'the chosen board', 'picture.done': '{name} is among your downloads.',
  'picture.small': 'Computed colors: screens and prints are not the sample.',
  'open.missing': 'Choose {names}',
  'photo.even': 'The light was even: what changes over the board is the wood’s own',
  'starting': 'The first boards are being worked out …',
  'differ': '{words}.',
};
const language = english;
const t = (key, fill = {}) => {
  const text = language[key];
  const put = (s) => s.replace(/\{(\w+)\}/g, (_, name) => String(fill[name]));
  return Array.isArray(text) ? text.map(put) : put(text);
};
// One thing, or many of them.
const several = (n, one, many = one + 's') => n + ' ' + (n === 1 ? one : many);
