/** What can be measured of a piece or a strap: its length, its ends, its bends, its eye, what it is cut from. Lengths mm, angles rad, masses kg. */
import type { Part, Piece, PieceBend, PieceEnd, Strap } from '../model/part.js';
import type { Stock } from '../model/shop.js';
import { type PieceWork, pieceWork } from '../stock/index.js';
import { eyeLength } from '../trade/tube.js';
import type { Property } from './properties.js';

/** A piece or a strap with what it comes to. */
export interface Length {
  readonly part: Piece | Strap;
  readonly work: PieceWork;
}
export interface LengthEnd {
  readonly end: PieceEnd;
  readonly run: number;
}

const silent = { say: String };
/** Undefined for what is cut from sheet. */
export const lengthOf = (part: Part): Length | undefined =>
  part.kind === 'piece' || part.kind === 'strap' ? { part, work: pieceWork(part, silent) } : undefined;

export const endsOf = ({ part, work }: Length): Readonly<Partial<Record<'start' | 'finish', LengthEnd>>> =>
  part.kind === 'piece'
    ? { start: { end: part.startEnd, run: work.runs.start }, finish: { end: part.finishEnd, run: work.runs.finish } }
    : {};
/** From the start on. */
export const bendsOf = ({ part }: Length): readonly PieceBend[] =>
  part.kind === 'piece' ? [...part.bends].sort((a, b) => a.at - b.at) : [];
export const eyeOf = ({ part }: Length): Strap | undefined => (part.kind === 'strap' ? part : undefined);

/** Directly under the part's name. */
export const lengthProperties: readonly Property<Length>[] = [
  {
    name: 'quantity',
    quantity: 'count',
    label: 'quantity',
    summary: 'How many are wanted as drawn; opposite hands are counted apart.',
    inJson: true,
    read: ({ part }) => part.quantity,
  },
  {
    name: 'length',
    quantity: 'length',
    label: 'length to cut',
    summary: 'The length to cut, long point to long point, before bending.',
    inJson: true,
    read: ({ work }) => work.length,
  },
  {
    name: 'short_length',
    quantity: 'length',
    label: 'between short points',
    summary: 'Of a piece with mitred or coped ends: between their short points.',
    inJson: true,
    read: ({ work }) => (work.shortLength === work.length ? undefined : work.shortLength),
  },
  {
    name: 'mass',
    quantity: 'mass',
    label: 'mass',
    summary: 'Mass of one as it is cut; holes are not taken off.',
    inJson: true,
    read: ({ work }) => work.mass,
  },
];

/** Under `stock`. */
export const stockProperties: readonly Property<Stock>[] = [
  {
    name: 'name',
    quantity: 'text',
    label: 'cut from',
    summary: 'Name of the tube, bar, rod or angle.',
    inJson: false,
    read: (stock) => stock.name,
  },
  {
    name: 'length',
    quantity: 'length',
    label: 'sold in lengths of',
    summary: 'Length it is bought in.',
    inJson: false,
    read: (stock) => stock.length,
  },
];

/** Under `start` and `finish`. */
export const endProperties: readonly Property<LengthEnd>[] = [
  { name: 'cut', quantity: 'text', label: 'cut', summary: '`square`, `mitre` or `cope`.', inJson: true, read: ({ end }) => end.kind },
  {
    name: 'angle',
    quantity: 'angle',
    label: 'angle',
    summary: 'Of a mitre, from square; of a cope, between the two tubes.',
    inJson: true,
    read: ({ end }) => (end.kind === 'square' ? undefined : end.angle),
  },
  {
    name: 'turned',
    quantity: 'angle',
    label: 'turned',
    summary: 'The cut turned about the piece’s own axis.',
    inJson: true,
    read: ({ end }) => (end.kind === 'square' ? undefined : end.turned),
  },
  {
    name: 'onto',
    quantity: 'text',
    label: 'onto',
    summary: 'The tube that a cope sits on.',
    inJson: true,
    read: ({ end }) => (end.kind === 'cope' ? end.onto?.name : undefined),
  },
  {
    name: 'run',
    quantity: 'length',
    label: 'short point behind the long one',
    summary: 'How far the short point of the end lies behind its long point.',
    inJson: true,
    read: ({ end, run }) => (end.kind === 'square' ? undefined : run),
  },
];

/** Under `bends` and the number of the bend, counted from the start. */
export const pieceBendProperties: readonly Property<PieceBend>[] = [
  {
    name: 'from',
    quantity: 'length',
    label: 'from',
    summary: 'Where it starts along the straight stock.',
    inJson: true,
    read: ({ at }) => at,
  },
  {
    name: 'to',
    quantity: 'length',
    label: 'to',
    summary: 'Where it ends along the straight stock.',
    inJson: true,
    read: ({ at, radius, turn }) => at + radius * turn,
  },
  { name: 'turn', quantity: 'angle', label: 'turn', summary: 'How far it turns from straight.', inJson: true, read: ({ turn }) => turn },
  {
    name: 'radius',
    quantity: 'length',
    label: 'radius',
    summary: 'Radius to the middle of the stock.',
    inJson: true,
    read: ({ radius }) => radius,
  },
  {
    name: 'turned',
    quantity: 'angle',
    label: 'plane turned',
    summary: 'Its plane, turned about the piece’s axis from that of the first bend.',
    inJson: true,
    read: ({ turned }) => turned,
  },
];

/** Under `eye`, of a strap. */
export const eyeProperties: readonly Property<Strap>[] = [
  { name: 'pin', quantity: 'length', label: 'pin', summary: 'Diameter of the pin.', inJson: true, read: ({ pin }) => pin },
  { name: 'clear', quantity: 'length', label: 'play', summary: 'Play on the diameter.', inJson: true, read: ({ clear }) => clear },
  { name: 'wrap', quantity: 'angle', label: 'wrap', summary: 'Angle of touch round the pin.', inJson: true, read: ({ wrap }) => wrap },
  {
    name: 'length',
    quantity: 'length',
    label: 'length of bar in the eye',
    summary: 'Along the middle of the bar, from touch to touch.',
    inJson: true,
    read: ({ pin, clear, wrap, stock }) => {
      const shape = stock?.value.shape;
      return pin === undefined || wrap === undefined || shape?.kind !== 'flat' ? undefined : eyeLength(pin + clear, shape.thickness, wrap);
    },
  },
];
