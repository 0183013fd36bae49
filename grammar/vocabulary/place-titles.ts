/** Places in words, for messages, hover and the reference. */
import type { Place, ValueKind } from './pattern.js';

const titles: Readonly<Record<string, string>> = {
  file: 'at the top of a file',
  panel: 'in a panel',
  section: 'in a section',
  piece: 'in a piece',
  strap: 'in a strap',
  survey: 'in a survey',
  assembly: 'in an assembly',
  trial: 'in a trial',
  edge: 'in an edge',
  flange: 'in a flange',
  outline: 'in a drawn outline',
  'cut outline': 'in a drawn cut-out',
  repeat: 'in a repeat',
  opposite: 'in an opposite',
  bead: 'in a bead',
  band: 'in a band',
  material: 'in a material',
  sheet: 'in a sheet described',
  stock: 'in a tube, bar, rod or angle described',
  brake: 'in a brake',
  roller: 'in a roller',
  die: 'in a die described',
  saw: 'in a saw',
  welder: 'in a welder',
  spot_welder: 'in a spot welder',
};

/** Where a place is, in words: `panel` gives "in a panel". */
export const placeTitle = (place: Place): string => titles[place] ?? `in a ${place}`;

const kinds: Readonly<Record<ValueKind, string>> = {
  any: 'any value',
  length: 'length',
  angle: 'angle',
  area: 'area',
  volume: 'volume',
  mass: 'mass',
  density: 'density',
  force: 'force',
  stress: 'stress',
  stiffness: 'stiffness',
  time: 'time',
  money: 'amount of money',
  ratio: 'share, or percent',
  count: 'whole number',
  number: 'plain number',
  point: 'point (x, y)',
  condition: 'condition, yes or no',
  moment: 'turning moment',
  pressure: 'pressure',
  heat: 'heat for each length',
  curvature: 'curvature',
};

/** What a value must be, in words. */
export const kindTitle = (kind: ValueKind): string => kinds[kind];
