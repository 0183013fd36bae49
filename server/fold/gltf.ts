/**
 * A folded part as one binary glTF 2.0 file: metres and y up, as the standard has it.
 * Source: glTF 2.0 Specification, Khronos Group (ISO/IEC 12113:2022).
 */
import type { Mesh } from './types.js';

const MAGIC = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;
const BINARY_CHUNK = 0x004e4942;
const FLOAT = 5126;
const UNSIGNED_INT = 5125;
const ARRAY_BUFFER = 34962;
const ELEMENT_ARRAY_BUFFER = 34963;

/** From x right, y up the sheet, z off its face to y up: a quarter turn back about x. */
const Y_UP = [-Math.SQRT1_2, 0, 0, Math.SQRT1_2];

interface Run {
  readonly feature: string;
  readonly first: number;
  readonly count: number;
}

/**
 * @param name what the part is called
 * @param colour linear red, green, blue, 0…1; plain steel grey when left out
 * @returns the file; one mesh, a primitive for each face and bend with its name in `extras.feature`
 */
export const glb = (mesh: Mesh, name: string, colour: readonly [number, number, number] = [0.55, 0.57, 0.6]): Uint8Array => {
  const runs = featureRuns(mesh);
  const corners = mesh.positions.length / 3;
  const positions = Float32Array.from(mesh.positions, (mm) => mm / 1000);
  const normals = Float32Array.from(mesh.normals);
  const binary = new Uint8Array(corners * 24 + mesh.triangles.length * 4);
  const view = new DataView(binary.buffer);
  for (const [i, value] of positions.entries()) view.setFloat32(4 * i, value, true);
  for (const [i, value] of normals.entries()) view.setFloat32(corners * 12 + 4 * i, value, true);
  for (const [i, value] of mesh.triangles.entries()) view.setUint32(corners * 24 + 4 * i, value, true);
  const [min, max] = bounds(positions);
  const text = JSON.stringify({
    asset: { version: '2.0', generator: 'Planish' },
    scene: 0,
    scenes: [{ name, nodes: [0] }],
    nodes: [{ name, mesh: 0, rotation: Y_UP }],
    materials: [
      {
        name: 'sheet',
        doubleSided: false,
        pbrMetallicRoughness: { baseColorFactor: [...colour, 1], metallicFactor: 0.6, roughnessFactor: 0.5 },
      },
    ],
    meshes: [
      {
        name,
        extras: { features: runs.map(({ feature }) => feature) },
        primitives: runs.map(({ feature }, i) => ({
          attributes: { POSITION: 0, NORMAL: 1 },
          indices: 2 + i,
          material: 0,
          extras: { feature },
        })),
      },
    ],
    accessors: [
      { bufferView: 0, componentType: FLOAT, count: corners, type: 'VEC3', min, max },
      { bufferView: 1, componentType: FLOAT, count: corners, type: 'VEC3' },
      ...runs.map(({ first, count }) => ({
        bufferView: 2,
        byteOffset: first * 12,
        componentType: UNSIGNED_INT,
        count: count * 3,
        type: 'SCALAR',
      })),
    ],
    bufferViews: [
      { buffer: 0, byteOffset: 0, byteLength: corners * 12, target: ARRAY_BUFFER },
      { buffer: 0, byteOffset: corners * 12, byteLength: corners * 12, target: ARRAY_BUFFER },
      { buffer: 0, byteOffset: corners * 24, byteLength: mesh.triangles.length * 4, target: ELEMENT_ARRAY_BUFFER },
    ],
    buffers: [{ byteLength: binary.length }],
  });
  return packed(new TextEncoder().encode(text), binary);
};

/** Face, back and rim of a feature follow one another in the mesh. */
const featureRuns = (mesh: Mesh): readonly Run[] => {
  const runs: Run[] = [];
  for (const { feature, first, count } of mesh.groups) {
    const last = runs.at(-1);
    if (last?.feature === feature && last.first + last.count === first) runs[runs.length - 1] = { ...last, count: last.count + count };
    else runs.push({ feature, first, count });
  }
  return runs;
};

const bounds = (positions: Float32Array): readonly [number[], number[]] => {
  const min = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const max = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const [i, value] of positions.entries()) {
    min[i % 3] = Math.min(min[i % 3] as number, value);
    max[i % 3] = Math.max(max[i % 3] as number, value);
  }
  return [min, max];
};

const padded = (length: number): number => Math.ceil(length / 4) * 4;

/** Header and two chunks, each filled up to a multiple of four: the text with spaces, the numbers with nought. */
const packed = (text: Uint8Array, binary: Uint8Array): Uint8Array => {
  const textLength = padded(text.length);
  const binaryLength = padded(binary.length);
  const file = new Uint8Array(28 + textLength + binaryLength);
  const view = new DataView(file.buffer);
  view.setUint32(0, MAGIC, true);
  view.setUint32(4, 2, true);
  view.setUint32(8, file.length, true);
  view.setUint32(12, textLength, true);
  view.setUint32(16, JSON_CHUNK, true);
  file.fill(0x20, 20, 20 + textLength);
  file.set(text, 20);
  view.setUint32(20 + textLength, binaryLength, true);
  view.setUint32(24 + textLength, BINARY_CHUNK, true);
  file.set(binary, 28 + textLength);
  return file;
};
