import { validateBytes } from 'gltf-validator';
import { describe, expect, test } from 'vitest';
import { layOut } from '../../server/blank/index.js';
import type { Blank } from '../../server/blank/types.js';
import { glb, meshOf, stl, unplacedMesh } from '../../server/fold/index.js';
import type { Mesh } from '../../server/fold/types.js';
import type { EdgeStep, Panel, Section } from '../../server/model/part.js';
import { byK, corner, hole, leg, rectangle, section, sheet, turn } from '../blank/build.js';

const blankOf = (part: Panel | Section): Blank => {
  const { blank } = layOut(part);
  if (blank === undefined) throw new Error('not laid out');
  return blank;
};

const steel = sheet(1.5, 2, byK(0.42));
const sides = ['bottom', 'right', 'top', 'left'];
/** A produce box's tray with returns turned outward, holes in its floor and in one side. */
const tray = blankOf(
  rectangle(200, 100, {
    sheet: steel,
    edges: sides.map((edge) => ({ edge, steps: [{ length: 30 }, { length: 12, direction: 'down' }] })),
    cuts: [hole('drain.1', 10, { x: 50, y: 50 }), hole('drain.2', 10, { x: 150, y: 50 }), hole('rope', 8, { x: 100, y: 15 }, 'top.1')],
  }),
);
const partEdge = blankOf(
  rectangle(200, 100, {
    sheet: steel,
    edges: [
      {
        edge: 'top',
        from: 40,
        to: 120,
        steps: [
          { length: 25, turn: 60 },
          { length: 20, turn: 120 },
        ],
      },
    ],
  }),
);
const hat = blankOf(section(150, steel, [leg(20), turn('up'), leg(25), turn('down'), leg(40), turn('down'), leg(25), turn('up'), leg(20)]));
const span = { start: 1, end: 2 };
const step = { id: 'top.1', name: undefined, span, direction: 'up' as const };
const hem = { ...step, kind: 'hem' as const, depth: 10, depthSpan: span, styleSpan: span };
const withEdge = (one: EdgeStep): Blank => {
  const plain = rectangle(200, 100, { sheet: steel, edges: [{ edge: 'top', steps: [{ length: 10 }] }] });
  return blankOf({ ...plain, edges: plain.edges.map((chain) => ({ ...chain, steps: [one] })) });
};
const edged: readonly (readonly [string, Blank])[] = [
  ['drop', withEdge({ ...hem, style: { kind: 'teardrop', diameter: 4 } })],
  ['open hem', withEdge({ ...hem, style: { kind: 'open', gap: 1 } })],
  ['curl', withEdge({ ...step, kind: 'curl', wire: 5 })],
  ['joggle', withEdge({ ...step, kind: 'joggle', depth: 1.5, over: 15, run: undefined })],
  ['roll', withEdge({ ...step, kind: 'rolled', radius: 20, turn: 4.5 })],
];
const mitred = blankOf(
  rectangle(200, 100, {
    sheet: steel,
    edges: sides.map((edge) => ({ edge, steps: [{ length: 30 }, { length: 12 }] })),
    corners: [corner({ kind: 'mitred', gap: 0.5, relief: undefined })],
  }),
);
const lapped = blankOf(
  rectangle(200, 100, {
    sheet: steel,
    edges: sides.map((edge) => ({ edge, steps: [{ length: 30 }] })),
    corners: sides.map((over, i) =>
      corner({ kind: 'lap', over, under: sides[(i + 1) % 4] as string, by: 8, relief: undefined }, over, sides[(i + 1) % 4] as string),
    ),
  }),
);
const blanks: readonly (readonly [string, Blank])[] = [
  ['tray', tray],
  ['flange on part of an edge', partEdge],
  ['hat', hat],
  ['mitred tray', mitred],
  ['lapped tray', lapped],
  ...edged,
];

const cornersOf = (mesh: Mesh): readonly (readonly [number, number, number])[] =>
  Array.from({ length: mesh.positions.length / 3 }, (_, i) => [
    mesh.positions[3 * i] as number,
    mesh.positions[3 * i + 1] as number,
    mesh.positions[3 * i + 2] as number,
  ]);

/** How often each edge is walked one way more than the other, and by how many triangles, corners told apart by their place to a millionth of a millimetre. */
const openEdges = (mesh: Mesh): readonly string[] => {
  const corners = cornersOf(mesh).map((p) => p.map((v) => Math.round(v * 1e6) + 0).join(' '));
  const walked = new Map<string, number>();
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const ring = [0, 1, 2].map((k) => corners[mesh.triangles[t + k] as number] as string);
    for (let k = 0; k < 3; k++) {
      const key = `${ring[k]} > ${ring[(k + 1) % 3]}`;
      walked.set(key, (walked.get(key) ?? 0) + 1);
    }
  }
  return [...walked]
    .filter(([edge, times]) => times !== 1 || walked.get(edge.split(' > ').reverse().join(' > ')) !== 1)
    .map(([edge]) => edge);
};

/** Volume by the divergence theorem. */
const volumeOf = (triangles: readonly (readonly (readonly [number, number, number])[])[]): number =>
  triangles.reduce((sum, [a, b, c]) => {
    if (a === undefined || b === undefined || c === undefined) return sum;
    const cross = [b[1] * c[2] - b[2] * c[1], b[2] * c[0] - b[0] * c[2], b[0] * c[1] - b[1] * c[0]] as const;
    return sum + (a[0] * cross[0] + a[1] * cross[1] + a[2] * cross[2]) / 6;
  }, 0);

const meshVolume = (mesh: Mesh): number => {
  const corners = cornersOf(mesh);
  return volumeOf(
    Array.from({ length: mesh.triangles.length / 3 }, (_, t) =>
      [0, 1, 2].map((k) => corners[mesh.triangles[3 * t + k] as number] as readonly [number, number, number]),
    ),
  );
};

/** Sheet's volume, and what bends gain or lose: a pipe's wall is turn·(R + T/2)·T a length, the flat zone was allowance·T. */
const expectedVolume = (blank: Blank): number => {
  const bends = blank.bends.reduce((sum, bend) => {
    const length = Math.hypot(bend.to.x - bend.from.x, bend.to.y - bend.from.y);
    return sum + (bend.turn * (bend.radius + blank.thickness / 2) - bend.allowance) * length * blank.thickness;
  }, 0);
  return blank.area * blank.thickness + bends;
};

describe.each(blanks)('the mesh of a %s', (_, blank) => {
  test.each([0, 0.3, 1, 1.04])('is watertight with every bend turned by %d of its turn', (share) => {
    expect(openEdges(meshOf(blank, () => share))).toEqual([]);
  });

  test('is watertight half way through the bending', () => {
    expect(openEdges(meshOf(blank, (bend) => (bend.id.endsWith('1') ? 1 : 0.25)))).toEqual([]);
  });

  // A strip turns 15° at most, so its flat triangles lean off the true normal at their corners by half of that; the rim of a round relief is twisted more.
  test('has unit normals that look out of the triangles they stand on', () => {
    const mesh = meshOf(blank);
    const corners = cornersOf(mesh);
    const leans = { face: 0, back: 0, rim: 0 };
    for (const { side, first, count } of mesh.groups) {
      for (let t = 3 * first; t < 3 * (first + count); t += 3) {
        const numbers = [0, 1, 2].map((k) => mesh.triangles[t + k] as number);
        const [a, b, c] = numbers.map((n) => corners[n] ?? [0, 0, 0]);
        if (a === undefined || b === undefined || c === undefined) continue;
        const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
        const w = [c[0] - a[0], c[1] - a[1], c[2] - a[2]] as const;
        const cross = [u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]];
        const size = Math.hypot(...cross);
        if (size < 1e-6) continue;
        for (const n of numbers) {
          const normal = [0, 1, 2].map((k) => mesh.normals[3 * n + k] as number);
          expect(Math.hypot(...normal)).toBeCloseTo(1, 12);
          const cos = normal.reduce((sum, v, i) => sum + (v * (cross[i] as number)) / size, 0);
          leans[side] = Math.max(leans[side], (Math.acos(Math.min(1, cos)) * 180) / Math.PI);
        }
      }
    }
    expect(leans.face).toBeLessThan(8);
    expect(leans.back).toBeLessThan(8);
    expect(leans.rim).toBeLessThan(20);
  });

  test('groups every triangle once, by feature and side', () => {
    const mesh = meshOf(blank);
    let next = 0;
    for (const { first, count } of mesh.groups) {
      expect(first).toBe(next);
      next += count;
    }
    expect(next).toBe(mesh.triangles.length / 3);
    const features = new Set(mesh.groups.map(({ feature }) => feature));
    expect([...features].sort()).toEqual(
      [...blank.faces.map(({ id }) => `face:${id}`), ...blank.bends.map(({ id }) => `bend:${id}`)].sort(),
    );
  });

  test('as glTF passes the Khronos validator without a word', async () => {
    const report = await validateBytes(glb(meshOf(blank), 'tray'));
    expect(report.issues).toMatchObject({ numErrors: 0, numWarnings: 0, numInfos: 0 });
    expect(report.info.drawCallCount).toBe(blank.faces.length + blank.bends.length);
  });

  test('as STL holds the same volume, in the length the form prescribes', () => {
    const mesh = meshOf(blank);
    const file = stl(mesh, 'tray');
    const view = new DataView(file.buffer);
    const count = view.getUint32(80, true);
    expect(count).toBe(mesh.triangles.length / 3);
    expect(file.length).toBe(84 + 50 * count);
    const corner = (t: number, k: number): readonly [number, number, number] => {
      const at = 84 + 50 * t + 12 * (k + 1);
      return [view.getFloat32(at, true), view.getFloat32(at + 4, true), view.getFloat32(at + 8, true)];
    };
    const volume = volumeOf(Array.from({ length: count }, (_, t) => [corner(t, 0), corner(t, 1), corner(t, 2)]));
    expect(volume / meshVolume(mesh)).toBeCloseTo(1, 4);
  });
});

describe('volume', () => {
  // The zones of a tray end in reliefs, so the sum by whole zones is asked of parts without.
  const whole: readonly (readonly [string, Blank])[] = [['hat', hat], ['flange on part of an edge', partEdge], ...edged];
  test.each(whole)('of a %s is area times thickness within the bend correction', (_, blank) => {
    expect(meshVolume(meshOf(blank, () => 1, 1e-4)) / expectedVolume(blank)).toBeCloseTo(1, 4);
  });
  test.each(blanks)('of a %s lying flat is area times thickness', (_, blank) => {
    // Round holes and reliefs as chords within a ten-thousandth of a millimetre.
    expect(meshVolume(meshOf(blank, () => 0, 1e-4)) / (blank.area * blank.thickness)).toBeCloseTo(1, 6);
  });
});

test('a closed hem, whose inside has no width, is closed too: every edge is walked as often one way as the other', () => {
  const mesh = meshOf(withEdge({ ...hem, style: { kind: 'closed' } }));
  const corners = cornersOf(mesh).map((p) => p.map((v) => Math.round(v * 1e6) + 0).join(' '));
  const walked = new Map<string, number>();
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const [a, b] = [corners[mesh.triangles[t + k] as number], corners[mesh.triangles[t + ((k + 1) % 3)] as number]] as [string, string];
      const [key, way] = a < b ? [`${a} ${b}`, 1] : [`${b} ${a}`, -1];
      if (a !== b) walked.set(key, (walked.get(key) ?? 0) + way);
    }
  }
  expect([...walked].filter(([, ways]) => ways !== 0)).toEqual([]);
});

describe('a slider', () => {
  test('gets each state from triangles worked out once', () => {
    const unplaced = unplacedMesh(tray);
    for (const share of [0, 0.5, 1]) expect(unplaced.at(() => share)).toEqual(meshOf(tray, () => share));
  });
});
