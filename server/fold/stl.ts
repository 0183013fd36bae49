/** A folded part as a binary STL file, millimetres. The format has no published standard; this is the form every reader takes: 80 bytes of text, a count, 50 bytes a triangle. */
import { crossProduct, difference, unitVector, type Vector } from '../shape/space.js';
import type { Mesh } from './types.js';

const HEADER = 80;
const RECORD = 50;

/** @param name goes into the header, as far as 80 bytes hold it */
export const stl = (mesh: Mesh, name: string): Uint8Array => {
  const count = mesh.triangles.length / 3;
  const file = new Uint8Array(HEADER + 4 + count * RECORD);
  const view = new DataView(file.buffer);
  // A header that begins with the word solid is taken for the text form.
  file.set(new TextEncoder().encode(`part ${name}, mm`).slice(0, HEADER));
  view.setUint32(HEADER, count, true);
  for (let t = 0; t < count; t++) {
    const [a, b, c] = [cornerOf(mesh, 3 * t), cornerOf(mesh, 3 * t + 1), cornerOf(mesh, 3 * t + 2)];
    const normal = unitVector(crossProduct(difference(b, a), difference(c, a)));
    let at = HEADER + 4 + t * RECORD;
    for (const { x, y, z } of [normal, a, b, c]) {
      view.setFloat32(at, x, true);
      view.setFloat32(at + 4, y, true);
      view.setFloat32(at + 8, z, true);
      at += 12;
    }
  }
  return file;
};

const cornerOf = ({ positions, triangles }: Mesh, i: number): Vector => {
  const first = 3 * (triangles[i] ?? 0);
  return { x: positions[first] ?? 0, y: positions[first + 1] ?? 0, z: positions[first + 2] ?? 0 };
};
