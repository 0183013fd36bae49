/** From grid units back to the pieces as they were drawn. */
import type { NestedPiece, NestedSheet, NestResult, Unplaced } from '../types.js';
import type { BankPiece, Turn } from './bank.js';
import type { Shape } from './nofit.js';
import { freeRectangles, type Obstacle } from './offcuts.js';
import { turnOf, UNITS } from './outlines.js';
import type { Loaded, Loading } from './sheets.js';
import { placesFrom, reachOf } from './strip.js';
import { type Field, type Instance, isStrip, type Task } from './task.js';

const turnFor = (field: Field, piece: number, shape: number): Turn =>
  (field.turns[piece] as readonly Turn[]).find((turn) => turn.shape === shape) as Turn;

/** Where a sheet's field begins, mm. */
const fieldStart = (task: Task): number => task.question.margin - task.question.kerf / 2;

const pieceOn = (task: Task, sheet: Loaded, index: number, member: number): NestedPiece => {
  const instance = task.instances[sheet.members[member] as number] as Instance;
  const at = sheet.laid[member] as Loaded['laid'][number];
  const turn = turnFor(task.fields[sheet.field] as Field, instance.piece, at.shape);
  const x = (at.x + turn.originX) / UNITS + fieldStart(task);
  const y = (at.y + turn.originY) / UNITS + fieldStart(task);
  const { cos, sin } = turnOf(turn.angle);
  const { id } = (task.bank.pieces[instance.piece] as BankPiece).piece;
  const place = turn.flipped ? { cos, sin, tx: x, ty: y, mirrored: true } : { cos, sin, tx: x, ty: y };
  return { id, copy: instance.copy, sheet: index, x, y, angle: turn.angle, flipped: turn.flipped, place };
};

/** Outer rings as they lie, mm. A hole with something in it is no offcut of use, so holes count as taken. */
const obstaclesOn = (task: Task, sheet: Loaded): readonly Obstacle[] =>
  sheet.laid.map((at) => {
    const { outer } = task.bank.noFits.shapes[at.shape] as Shape;
    return outer.xs.map((x, i) => ({
      x: (x + at.x) / UNITS + fieldStart(task),
      y: ((outer.ys[i] as number) + at.y) / UNITS + fieldStart(task),
    }));
  });

/** Of a strip, both margins included, mm. */
const lengthUsed = (task: Task, loaded: Loaded): number =>
  reachOf(task.bank.noFits, placesFrom(loaded.laid), 'x') / UNITS - task.question.kerf + 2 * task.question.margin;

/** Length of the strip in a loading, 0 while nothing lies on it. */
export const stripLength = (task: Task, loading: Loading): number => {
  const loaded = loading.sheets[0];
  return loaded === undefined ? 0 : lengthUsed(task, loaded);
};

const sheetAnswer = (task: Task, loaded: Loaded): NestedSheet => {
  const { question } = task;
  const { sheet } = task.fields[loaded.field] as Field;
  const width = isStrip(question.stock) ? lengthUsed(task, loaded) : sheet.width;
  const used = loaded.members.reduce((sum, i) => sum + (task.bank.pieces[(task.instances[i] as Instance).piece] as BankPiece).area, 0);
  const obstacles = obstaclesOn(task, loaded);
  return {
    stock: sheet.id,
    width,
    height: sheet.height,
    offcut: sheet.offcut === true,
    price: sheet.price,
    used,
    utilisation: used / (width * sheet.height),
    offcuts: freeRectangles(width, sheet.height, obstacles, question.kerf, question.leastOffcut ?? 50),
  };
};

const leftOver = (task: Task, left: readonly number[]): readonly Unplaced[] => {
  const counts = new Map<string, number>();
  for (const i of left) {
    const { id } = (task.bank.pieces[(task.instances[i] as Instance).piece] as BankPiece).piece;
    counts.set(id, (counts.get(id) ?? 0) + 1);
  }
  return [...counts].map(([id, count]) => ({ reason: 'stock used up', id, count }));
};

export const answerOf = (task: Task, loading: Loading): NestResult => {
  const sheets = loading.sheets.map((loaded) => sheetAnswer(task, loaded));
  const placements = loading.sheets.flatMap((loaded, index) => loaded.members.map((_, member) => pieceOn(task, loaded, index, member)));
  const used = sheets.reduce((sum, sheet) => sum + sheet.used, 0);
  const area = sheets.reduce((sum, sheet) => sum + sheet.width * sheet.height, 0);
  return {
    sheets,
    placements,
    unplaced: [...task.unplaced, ...leftOver(task, loading.left)],
    utilisation: area > 0 ? used / area : 0,
    price: sheets.reduce((sum, sheet) => sum + (sheet.offcut ? 0 : (sheet.price ?? 0)), 0),
    length: isStrip(task.question.stock) ? (sheets[0]?.width ?? 0) : 0,
  };
};
