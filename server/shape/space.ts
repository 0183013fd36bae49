/** Space: vectors, and frames that carry flat things into it. Millimetres; x right, y up, z toward the eye looking at the part's face. */

export interface Vector {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}
/** Where a thing stands: its own origin and its three unit axes, as seen from outside. Axes are square to one another and right-handed. */
export interface Frame {
  readonly origin: Vector;
  readonly x: Vector;
  readonly y: Vector;
  readonly z: Vector;
}
export interface Box3 {
  readonly min: Vector;
  readonly max: Vector;
}
