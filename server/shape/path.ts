/** Plane paths that stay what they are: straight lines and true circular arcs. Millimetres, y up, anticlockwise positive. */

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A move from the end of the one before. */
export type Move =
  | { readonly kind: 'line'; readonly to: Point; readonly id?: string }
  | { readonly kind: 'arc'; readonly to: Point; readonly centre: Point; readonly turn: 'left' | 'right'; readonly id?: string };

/** Closed: the first move starts at the end of the last. Outer loops run anticlockwise, holes clockwise. `id` names the drawn feature a move came from. */
export type Loop = readonly Move[];

export interface Circle {
  readonly centre: Point;
  readonly radius: number;
}
export interface Box {
  readonly min: Point;
  readonly max: Point;
}
/** Rigid motion of the plane: x' = c·x − s·y + tx, y' = s·x + c·y + ty; `mirrored` flips y first. */
export interface Placement {
  readonly cos: number;
  readonly sin: number;
  readonly tx: number;
  readonly ty: number;
  readonly mirrored?: boolean;
}
