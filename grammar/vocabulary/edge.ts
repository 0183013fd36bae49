/** What is turned on an edge: flanges, hems, curls and the like, from the base outward. */

import { conventionWords, inPanel } from './parts-of-patterns.js';
import type { ArgumentHelp, Pattern, StatementEntry } from './pattern.js';
import { angle, anyOrder, block, choice, length, list, name, newName, oneOf, option, optional, sequence, word } from './pattern.js';

const upOrDown = choice('direction', 'up', 'down');
const direction: ArgumentHelp = {
  summary: '`up` folds toward the face side of the sheet, `down` away from it, however the piece already stands.',
};
const directionAfter: ArgumentHelp = { ...direction, default: 'goes on turning the way of the flange before it' };
const asFlange: Pattern = option('as', newName('as', 'flange'));
const asFlangeHelp: ArgumentHelp = {
  summary: 'A name for it, to put holes on it or speak of its bend.',
  default: 'the edge and its number: `top.1`',
};

export const edgeStatements: readonly StatementEntry[] = [
  {
    word: 'edge',
    id: 'edge',
    family: 'edge',
    places: ['panel', 'flange'],
    pattern: sequence(list('edges', name('edge', 'edge')), optional(word('from'), length('from'), word('to'), length('to')), block('edge')),
    summary: 'Says what is turned on one edge or several, in order from the base outward.',
    note: 'On a rectangle the edges are `top bottom left right`; a drawn outline has the names you gave. On a flange: `left right` (of a top or bottom flange), `bottom top` (of a left or right one), `start finish` on drawn edges, and `free`. A second piece on the same edge is a second block with its own stretch.',
    example: inPanel(
      'gate',
      '30 1/4 by 11',
      'edge top { flange 3/4 down }',
      'edge left, right { flange 5/8 down }',
      'edge bottom from 4 to 26 { flange 1 down }',
    ),
    arguments: {
      edges: { summary: 'One edge, or several parted by commas.' },
      from: { summary: 'Where the stretch starts: x on top and bottom, y on left and right.', default: 'the whole edge' },
      to: { summary: 'Where the stretch ends.', default: 'the whole edge' },
    },
    computed: true,
  },
  {
    word: 'flange',
    id: 'flange',
    family: 'edge',
    places: ['edge'],
    pattern: sequence(
      length('length'),
      upOrDown,
      optional(angle('angle')),
      anyOrder(
        option('radius', length('radius')),
        option('to', length('taper')),
        option(
          'ends',
          oneOf(
            word('square', 'ends'),
            sequence(word('mitred', 'ends'), angle('endsAngle')),
            sequence(word('back', 'ends'), length('endsBack')),
          ),
        ),
        conventionWords,
        asFlange,
      ),
      optional(block('flange')),
    ),
    summary: 'Turns the edge to a flange.',
    note: 'Length is finished length along the flange, from the outside of what it stands on to its cut edge or to the outside of what comes next. `down` then `down` makes a return, `down` then `up` a Z. Each brake has a least flange it can grip.',
    example: inPanel('gate', '30 1/4 by 11', 'edge top {', '  flange 3/4 down radius 3/32', '  flange 3/8 down 45 ends back 1/16', '}'),
    arguments: {
      length: { summary: 'Finished length, along the flange.' },
      direction,
      angle: { summary: 'How far it turns from flat.', default: '90°' },
      radius: { summary: 'Inside radius of the bend.', default: 'the sheet’s own bend radius' },
      taper: { summary: 'Length at the far end, when the flange tapers.', default: 'the same length all along' },
      ends: { summary: '`square`, `mitred` by an angle, or set `back`.', default: 'what the corner asks for, otherwise square' },
      endsAngle: { summary: 'How far each end is cut away from square.' },
      endsBack: { summary: 'How far each end stops short of the edge’s end.' },
      convention: { summary: 'Where the length is measured: `outside`, `inside` or `flat`.', default: 'as the outline says' },
      as: asFlangeHelp,
    },
    computed: true,
  },
  {
    word: 'hem',
    id: 'hem',
    family: 'edge',
    places: ['edge', 'section'],
    pattern: sequence(
      length('depth'),
      oneOf(
        word('closed', 'style'),
        sequence(word('open', 'style'), length('gap')),
        word('double', 'style'),
        sequence(word('teardrop', 'style'), length('diameter')),
      ),
      anyOrder(upOrDown, asFlange),
    ),
    summary: 'Folds the edge back on itself, for a safe and stiff rim.',
    note: 'A closed hem is mashed flat: the outside of the fold stretches most there, so harder sheet wants it open or as a teardrop. A double one is folded and mashed twice: three layers, the cut edge inside. Adding a hem never changes the finished size. Nothing can follow it on its edge; a hole written after it lies on the folded-back return. In a section it stands before the first leg or after the last.',
    example: inPanel('gate', '30 1/4 by 11', 'edge top {', '  flange 3/4 down', '  hem 3/8 open 1/16', '}'),
    arguments: {
      depth: { summary: 'From the outermost of the fold to the cut edge.' },
      style: { summary: '`closed`, `open` with a gap, `double`, or `teardrop` round a diameter.' },
      gap: { summary: 'Clear gap between the two layers.' },
      diameter: { summary: 'Inside diameter of the drop.' },
      direction: directionAfter,
      as: asFlangeHelp,
    },
    computed: true,
  },
  {
    word: 'curl',
    id: 'curl',
    family: 'edge',
    places: ['edge', 'section'],
    pattern: sequence(word('round'), length('wire'), anyOrder(upOrDown, asFlange)),
    summary: 'Rolls the edge round a wire.',
    note: 'The strongest rim for a box that is lifted by its edge. Leave the wire long and dress its ends last. In a section it stands before the first leg or after the last.',
    example: inPanel('produce_box', '24 by 16', 'edge top { curl round 3/16 down }'),
    arguments: { wire: { summary: 'Diameter of the wire.' }, direction: directionAfter, as: asFlangeHelp },
    computed: true,
  },
  {
    word: 'joggle',
    id: 'joggle',
    family: 'edge',
    places: ['edge', 'section'],
    pattern: sequence(length('depth'), option('over', length('length')), anyOrder(option('run', length('run')), upOrDown, asFlange)),
    summary: 'Sets the edge off by a step, so that another sheet lies flush on it.',
    note: '`over` runs from where the sheet leaves its plane, along the sheet, to the end of the land that is set off: its cut edge, or the outside of what comes next. A joggle one thickness deep lets two sheets lap with a level face. Give it some `run` to slope in; a short one marks and strains the sheet. In a section it stands at the edge of the strip, before the first leg or after the last; between legs write two turns.',
    example: inPanel('patch', '8 by 6', 'edge left { joggle 0.048 over 3/4 run 1/4 down }'),
    arguments: {
      depth: { summary: 'How far the edge is set off.' },
      length: { summary: 'From where the sheet leaves its plane to the end of the land.' },
      run: { summary: 'What the slope takes of that length.', default: 'as little as a slope of 45° takes' },
      direction: { ...direction, summary: '`up` sets the edge off toward the face side of the sheet, `down` away from it.' },
      as: asFlangeHelp,
    },
    computed: true,
  },
  {
    word: 'tab',
    id: 'tab',
    family: 'edge',
    places: ['edge', 'section'],
    pattern: sequence(
      length('width'),
      option('by', length('length')),
      optional(word('at'), list('at', length('place'))),
      optional(asFlange),
    ),
    summary: 'Leaves tabs standing on the edge, to rivet, spot or fold over.',
    note: 'Places are centres, measured along the edge the way a hole on it would be. Tabs of another size on the same edge go in a second block with a stretch of its own. In a section they stand before the first leg or after the last, their places along x.',
    example: inPanel('divider', '16 by 8', 'edge left, right { tab 1 by 1/2 at 2, 6 }'),
    arguments: {
      width: { summary: 'Width of each tab, along the edge.' },
      length: { summary: 'How far it stands out.' },
      at: { summary: 'Centre of each tab along the edge.', default: 'the middle of the edge' },
      as: asFlangeHelp,
    },
    computed: true,
  },
  {
    word: 'rolled',
    id: 'rolled',
    family: 'edge',
    places: ['edge', 'section'],
    pattern: sequence(option('radius', length('radius')), upOrDown, angle('angle'), optional(asFlange)),
    summary: 'Rolls the edge to a large radius.',
    note: 'Made over a pipe or in the slip rolls, not on the brake. The finished size runs to the outermost of the roll. In a section it stands before the first leg or after the last; between legs write a `turn` with its `radius`.',
    example: inPanel('lid', '20 by 14', 'edge top { rolled radius 1 1/2 down 90 }'),
    arguments: { radius: { summary: 'Inside radius.' }, direction, angle: { summary: 'How far it turns from flat.' }, as: asFlangeHelp },
    computed: true,
  },
];
