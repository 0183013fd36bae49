/** What is left of a sheet in rectangles worth keeping. */
import type { FreeRectangle } from '../types.js';

/** Corners of what lies on the sheet, grown by half the kerf, mm. */
export type Obstacle = readonly { readonly x: number; readonly y: number }[];

/** Cells along the longer side of the sheet: rectangles are found to a cell, then widened until they touch. */
const cellsAlong = 240;
const mostOffcuts = 8;

interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly cell: number;
  readonly taken: Uint8Array;
}

const clamp = (value: number, most: number): number => Math.max(0, Math.min(most, value));

const takeRun = (grid: Grid, row: number, fromX: number, toX: number): void => {
  const first = clamp(Math.floor(fromX / grid.cell + 1e-9), grid.columns - 1);
  const last = clamp(Math.ceil(toX / grid.cell - 1e-9) - 1, grid.columns - 1);
  for (let c = first; c <= last; c++) grid.taken[row * grid.columns + c] = 1;
};

/** Part of an edge between two heights, as its range in x; undefined when there is none. */
const edgeWithin = (
  a: Obstacle[number],
  b: Obstacle[number],
  low: number,
  high: number,
): { readonly from: number; readonly to: number } | undefined => {
  const [bottom, top] = a.y <= b.y ? [a, b] : [b, a];
  if (top.y <= low || bottom.y >= high) return bottom.y === top.y && bottom.y > low && bottom.y < high ? rangeOf(a.x, b.x) : undefined;
  const at = (y: number): number => (top.y === bottom.y ? bottom.x : bottom.x + ((top.x - bottom.x) * (y - bottom.y)) / (top.y - bottom.y));
  if (top.y === bottom.y) return rangeOf(a.x, b.x);
  return rangeOf(at(Math.max(low, bottom.y)), at(Math.min(high, top.y)));
};
const rangeOf = (p: number, q: number): { readonly from: number; readonly to: number } => (p < q ? { from: p, to: q } : { from: q, to: p });

/** Marks every cell that an obstacle touches: those its edges pass, and those whose middle lies inside. */
const markObstacle = (grid: Grid, obstacle: Obstacle): void => {
  for (let row = 0; row < grid.rows; row++) {
    const low = row * grid.cell;
    const high = low + grid.cell;
    const middle = low + grid.cell / 2;
    const crossings: number[] = [];
    obstacle.forEach((a, i) => {
      const b = obstacle[(i + 1) % obstacle.length] as Obstacle[number];
      const part = edgeWithin(a, b, low, high);
      if (part !== undefined) takeRun(grid, row, part.from, Math.max(part.to, part.from + 1e-6));
      if (a.y > middle !== b.y > middle) crossings.push(a.x + ((b.x - a.x) * (middle - a.y)) / (b.y - a.y));
    });
    crossings.sort((p, q) => p - q);
    for (let k = 0; k + 1 < crossings.length; k += 2) takeRun(grid, row, crossings[k] as number, crossings[k + 1] as number);
  }
};

interface Cells {
  readonly column: number;
  readonly row: number;
  readonly columns: number;
  readonly rows: number;
}

/** The largest rectangle of free cells whose sides are at least `least` mm long. */
const largestFree = (grid: Grid, width: number, height: number, least: number): Cells | undefined => {
  const heights = new Int32Array(grid.columns + 1);
  let best: Cells | undefined;
  let bestArea = 0;
  for (let row = 0; row < grid.rows; row++) {
    for (let c = 0; c < grid.columns; c++) {
      heights[c] = grid.taken[row * grid.columns + c] === 1 ? 0 : (heights[c] as number) + 1;
    }
    const stack: number[] = [];
    for (let c = 0; c <= grid.columns; c++) {
      while (stack.length > 0 && (heights[stack[stack.length - 1] as number] as number) >= (heights[c] as number)) {
        const rows = heights[stack.pop() as number] as number;
        const column = stack.length === 0 ? 0 : (stack[stack.length - 1] as number) + 1;
        const columns = c - column;
        // The last column and row may reach over the sheet's edge.
        const w = Math.min(width, c * grid.cell) - column * grid.cell;
        const h = Math.min(height, (row + 1) * grid.cell) - (row + 1 - rows) * grid.cell;
        if (Math.min(w, h) < least - 2 * grid.cell || w * h <= bestArea) continue;
        bestArea = w * h;
        best = { column, row: row + 1 - rows, columns, rows };
      }
      stack.push(c);
    }
  }
  return best;
};

interface Bounds {
  left: number;
  right: number;
  bottom: number;
  top: number;
}

/** Widens a free rectangle on all sides until it meets an obstacle or the edge of the sheet. */
const widened = (box: Bounds, width: number, height: number, obstacles: readonly Obstacle[]): Bounds => {
  const out = { ...box };
  const turnedOver = obstacles.map((obstacle) => obstacle.map((p) => ({ x: p.y, y: p.x })));
  const reach = (set: readonly Obstacle[], low: number, high: number, from: number, to: number): readonly [number, number] => {
    let [before, after] = [0, Number.POSITIVE_INFINITY];
    for (const obstacle of set) {
      obstacle.forEach((a, i) => {
        const part = edgeWithin(a, obstacle[(i + 1) % obstacle.length] as Obstacle[number], low, high);
        if (part === undefined) return;
        if (part.to <= from + 1e-6) before = Math.max(before, part.to);
        else if (part.from >= to - 1e-6) after = Math.min(after, part.from);
      });
    }
    return [before, after];
  };
  const [left, right] = reach(obstacles, out.bottom + 1e-6, out.top - 1e-6, out.left, out.right);
  out.left = left;
  out.right = Math.min(width, right);
  const [bottom, top] = reach(turnedOver, out.left + 1e-6, out.right - 1e-6, out.bottom, out.top);
  out.bottom = bottom;
  out.top = Math.min(height, top);
  return out;
};

/**
 * Free rectangles of a sheet, largest first; they do not overlap.
 *
 * @param kerf taken off each side that is to be cut
 * @param least shorter side from which a rectangle counts, mm
 */
export const freeRectangles = (
  width: number,
  height: number,
  obstacles: readonly Obstacle[],
  kerf: number,
  least: number,
): readonly FreeRectangle[] => {
  const cell = Math.max(width, height) / cellsAlong;
  const columns = Math.ceil(width / cell - 1e-9);
  const rows = Math.ceil(height / cell - 1e-9);
  const grid: Grid = { columns, rows, cell, taken: new Uint8Array(columns * rows) };
  for (const obstacle of obstacles) markObstacle(grid, obstacle);
  const closed: Obstacle[] = [...obstacles];
  const found: FreeRectangle[] = [];
  while (found.length < mostOffcuts) {
    const cells = largestFree(grid, width, height, Math.max(least, 2 * cell));
    if (cells === undefined) break;
    const left = cells.column * cell;
    const bottom = cells.row * cell;
    const right = Math.min(width, left + cells.columns * cell);
    const top = Math.min(height, bottom + cells.rows * cell);
    const box = widened({ left, right, bottom, top }, width, height, closed);
    const corners = [
      { x: box.left, y: box.bottom },
      { x: box.right, y: box.bottom },
      { x: box.right, y: box.top },
      { x: box.left, y: box.top },
    ];
    closed.push(corners);
    markObstacle(grid, corners);
    // Half a kerf lies in the rectangle already where a piece bounds it; the other half is taken off every side that is not the sheet's own edge.
    const x = box.left + (box.left > 1e-6 ? kerf / 2 : 0);
    const y = box.bottom + (box.bottom > 1e-6 ? kerf / 2 : 0);
    const w = box.right - (box.right < width - 1e-6 ? kerf / 2 : 0) - x;
    const h = box.top - (box.top < height - 1e-6 ? kerf / 2 : 0) - y;
    if (Math.min(w, h) >= least) found.push({ x, y, width: w, height: h });
  }
  return found.sort((a, b) => b.width * b.height - a.width * a.height);
};
