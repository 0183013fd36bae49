/** Paths as written, and the lines that are rolled. */
import { describe, expect, it } from 'vitest';
import { byK, drawn, polygonPanel, rectangle, sheet } from '../blank/build.js';
import { along, bead, beaded, border, circle, halfRound, line, sourced, stepDie, through, work } from './build.js';
import { pathPoints } from './points.js';

const crs = sheet(1, 1, byK(0.42));
const flat = { sheet: crs };
const tray = rectangle(600, 400, flat);
const box = (points: readonly { at: { x: number; y: number } }[]): number[] =>
  [
    Math.min(...points.map((p) => p.at.x)),
    Math.min(...points.map((p) => p.at.y)),
    Math.max(...points.map((p) => p.at.x)),
    Math.max(...points.map((p) => p.at.y)),
  ].map((v) => Math.round(v * 1e6) / 1e6);

describe('a border', () => {
  it('lies inside the finished outline, its corners rounded', () => {
    const { tracks, length } = work(beaded(tray, [bead('border', border(40, 25))])).bead('border');
    expect(tracks).toHaveLength(1);
    expect(tracks[0]).toMatchObject({ tightest: 25, tightestInside: 20 });
    expect(box(pathPoints(tracks[0]?.path, 20))).toEqual([40, 40, 560, 360]);
    // Four sides less two radii each, and a full turn.
    expect(length).toBeCloseTo(2 * (520 - 50) + 2 * (320 - 50) + 2 * Math.PI * 25, 9);
  });
  it('without a corner radius turns as tightly as the die goes', () => {
    expect(work(beaded(tray, [bead('border', border(40))])).bead('border').tracks[0]?.tightest).toBe(20);
  });
  it('is counted from the finished outline also where the edges are bent', () => {
    const bent = rectangle(600, 400, { sheet: crs, edges: [{ edge: 'top', steps: [{ length: 30 }] }] });
    const { blank, bead: of } = work(beaded(bent, [bead('border', border(40, 25))]));
    // The lower edge is not bent: the blank's y is the part's.
    expect(blank.datum.y).toBe(0);
    expect(box(pathPoints(of('border').tracks[0]?.path, 20))).toEqual([40, 40, 560, 360]);
  });
  it('in an outline with an arc keeps the arc’s middle', () => {
    const arch = drawn(
      { x: 0, y: 0 },
      [
        { to: { x: 400, y: 0 }, name: 'sill' },
        { to: { x: 400, y: 300 }, name: 'right' },
        { to: { x: 0, y: 300 }, name: 'arch', arc: { centre: { x: 200, y: 300 }, turn: 'left' } },
        { to: { x: 0, y: 0 }, name: 'left' },
      ],
      flat,
    );
    const { tracks } = work(beaded(arch, [bead('border', border(50, 30))])).bead('border');
    const round = tracks[0]?.path.moves.find((move) => move.id === 'edge:arch');
    expect(round).toMatchObject({ kind: 'arc', centre: { x: 200, y: 300 }, turn: 'left' });
    expect(box(pathPoints(tracks[0]?.path, 60))).toEqual([50, 50, 350, 450]);
  });
  it('rounds an inside corner of the outline as well', () => {
    const ell = polygonPanel(
      [
        { x: 0, y: 0 },
        { x: 400, y: 0 },
        { x: 400, y: 200 },
        { x: 200, y: 200 },
        { x: 200, y: 400 },
        { x: 0, y: 400 },
      ],
      flat,
    );
    const { tracks, length } = work(beaded(ell, [bead('border', border(30, 20))])).bead('border');
    // Sides of the shifted L: 340, 140, 200, 200, 140, 340; six quarter turns of 20 for twelve radii of side.
    expect(length).toBeCloseTo(1360 - 12 * 20 + 6 * 10 * Math.PI, 9);
    expect(tracks[0]?.path.moves.filter((move) => move.kind === 'arc' && move.turn === 'right')).toHaveLength(1);
  });
  it('parts in two where a waist is too narrow for it', () => {
    const waisted = polygonPanel(
      [
        { x: 0, y: 0 },
        { x: 200, y: 0 },
        { x: 200, y: 80 },
        { x: 400, y: 80 },
        { x: 400, y: 0 },
        { x: 600, y: 0 },
        { x: 600, y: 200 },
        { x: 400, y: 200 },
        { x: 400, y: 120 },
        { x: 200, y: 120 },
        { x: 200, y: 200 },
        { x: 0, y: 200 },
      ],
      flat,
    );
    const { tracks } = work(beaded(waisted, [bead('border', border(30, 10))])).bead('border');
    expect(tracks.map((track) => track.id)).toEqual(['border.1', 'border.2']);
    expect(tracks.map((track) => box(pathPoints(track.path, 20))).sort((a, b) => (a[0] as number) - (b[0] as number))).toEqual([
      [30, 30, 170, 170],
      [430, 30, 570, 170],
    ]);
  });
  it('says when nothing is left inside, and when a corner is too large', () => {
    expect(work(beaded(tray, [bead('border', border(210))])).result.unworked[0]).toMatchObject({
      kind: 'nothing-inside',
      message: 'an inset of 210 mm leaves nothing inside the outline: make it smaller',
    });
    const { result } = work(beaded(tray, [bead('border', border(40, 170))]));
    expect(result.unworked[0]).toMatchObject({
      kind: 'corner-too-large',
      message: 'a corner of 170 mm does not fit between the neighbouring corners of border; the largest that fits is 160 mm',
    });
    expect(result.beads[0]?.tracks[0]?.tightest).toBeCloseTo(160, 4);
  });
});

describe('a bead along edges', () => {
  it('starts and ends as far from the neighbouring edges as it lies from its own', () => {
    const { tracks } = work(beaded(tray, [bead('rim', along(['left', 'bottom', 'right'], 50, 30))])).bead('rim');
    expect(tracks[0]?.path).toMatchObject({ start: { x: 50, y: 350 }, closed: false });
    expect(tracks[0]?.finish).toEqual({ kind: 'open', at: { x: 550, y: 350 } });
    expect(tracks[0]?.length).toBeCloseTo(2 * (300 - 30) + (500 - 60) + Math.PI * 30, 9);
  });
  it('named the other way round runs the other way', () => {
    expect(work(beaded(tray, [bead('rim', along(['right', 'bottom'], 50, 30))])).bead('rim').tracks[0]?.path.start).toEqual({
      x: 550,
      y: 350,
    });
  });
  it('along all edges is a border', () => {
    const rim = work(beaded(tray, [bead('rim', along(['bottom', 'right', 'top', 'left'], 40, 25))])).bead('rim');
    expect(rim.tracks[0]?.path.closed).toBe(true);
    expect(rim.length).toBeCloseTo(2 * 470 + 2 * 270 + 50 * Math.PI, 9);
  });
  it('names edges that are neighbours', () => {
    expect(work(beaded(tray, [bead('rim', along(['left', 'right'], 40))])).result.unworked[0]).toMatchObject({
      kind: 'edges-apart',
      message: 'left and right do not meet at a corner: name the edges in order round the outline, or write one bead for each',
    });
  });
});

describe('ends that run off', () => {
  it('go on to the sheet’s edge and until both feet have left it', () => {
    const { tracks, length } = work(beaded(tray, [bead('rib', line(100, 200, 500, 200), { start: 'open', finish: 'run off' })])).bead(
      'rib',
    );
    expect(tracks[0]?.finish).toEqual({ kind: 'run off', at: { x: 600, y: 200 } });
    expect(tracks[0]?.path.moves.at(-1)?.to).toEqual({ x: 605, y: 200 });
    expect(length).toBeCloseTo(500, 9);
  });
  it('on a slant run further, for the foot that leaves last', () => {
    const { tracks } = work(beaded(tray, [bead('rib', line(300, 200, 400, 300), { start: 'open', finish: 'run off' })])).bead('rib');
    expect(tracks[0]?.finish?.at.y).toBeCloseTo(400, 9);
    // At 45° the foot on the far side is 5 behind, square to the bead.
    const past = tracks[0]?.path.moves.at(-1)?.to ?? { x: 0, y: 0 };
    expect(Math.hypot(past.x - 500, past.y - 400)).toBeCloseTo(5, 6);
  });
});

describe('a band', () => {
  const band = (path: Parameters<typeof bead>[1], width: number) =>
    work(beaded(tray, [bead('raised', path, { kind: 'band', width, die: sourced(stepDie()) })]));
  it('is two steps whose outer feet are its width apart, the land between them', () => {
    const { tracks } = band(line(100, 200, 500, 200), 80).bead('raised');
    // Middles of the shoulders, each 8 wide: 36 to either side.
    expect(tracks.map((track) => [track.id, track.path.start.y, track.land])).toEqual([
      ['raised.1', 236, 'right'],
      ['raised.2', 164, 'left'],
    ]);
  });
  it('turns with the corner its path has, less or more by where its shoulders lie', () => {
    const { tracks, turns } = band(border(100, 50), 80).bead('raised');
    expect(tracks.map((track) => track.tightest)).toEqual([14, 86]);
    expect(tracks[0]?.tightestInside).toBe(10);
    expect(turns).toHaveLength(4);
    expect(turns[0]).toMatchObject({ track: 'raised.1', radius: 14, allowed: 20, rod: 10 });
    expect(turns[0]?.turn).toBeCloseTo(Math.PI / 2, 9);
  });
  it('on a bent path shifts both steps round the corner with true arcs', () => {
    const { tracks } = band(
      through(
        [
          { x: 100, y: 100 },
          { x: 300, y: 100 },
          { x: 300, y: 300 },
        ],
        60,
      ),
      80,
    ).bead('raised');
    expect(tracks.map((track) => track.path.moves.map((move) => move.kind).join(' '))).toEqual(['line arc line', 'line arc line']);
    expect(tracks.map((track) => track.tightest)).toEqual([24, 96]);
    expect(tracks[0]?.length).toBeCloseTo(140 + 140 + (Math.PI / 2) * 24, 9);
  });
  it('where the corner is tighter than its inner step, that step turns sharply', () => {
    const { tracks } = band(
      through(
        [
          { x: 100, y: 100 },
          { x: 300, y: 100 },
          { x: 300, y: 300 },
        ],
        20,
      ),
      80,
    ).bead('raised');
    expect(tracks[0]?.tightest).toBe(0);
    expect(tracks[0]?.path.moves.map((move) => move.kind)).toEqual(['line', 'line']);
    expect(tracks[0]?.path.moves[0]?.to.x).toBeCloseTo(264, 9);
  });
  it('too narrow for its shoulders is told', () => {
    expect(band(line(100, 200, 500, 200), 12).result.unworked[0]?.kind).toBe('band-too-narrow');
  });
});

describe('copies', () => {
  it('are mirrored first and then moved', () => {
    const copy = { mirrorX: true, mirrorY: false, shift: { x: 600, y: 10 } };
    const { tracks } = work(beaded(tray, [bead('rib', line(100, 50, 150, 350), { copy })])).bead('rib');
    expect(tracks[0]?.path).toMatchObject({ start: { x: 500, y: 60 }, moves: [{ to: { x: 450, y: 360 } }] });
  });
  it('turn their arcs over', () => {
    const written = {
      kind: 'arc' as const,
      from: sourced({ x: 100, y: 100 }),
      through: sourced({ x: 150, y: 150 }),
      to: sourced({ x: 200, y: 100 }),
    };
    const copy = { mirrorX: false, mirrorY: true, shift: { x: 0, y: 400 } };
    const [own, mirrored] = [bead('bow.1', written), bead('bow.2', written, { copy })].map(
      (one) => work(beaded(tray, [one])).bead(one.id).tracks[0],
    );
    expect(own?.path.moves[0]).toMatchObject({ kind: 'arc', centre: { x: 150, y: 100 }, turn: 'right' });
    expect(mirrored?.path.moves[0]).toMatchObject({ kind: 'arc', centre: { x: 150, y: 300 }, turn: 'left' });
    expect(own?.length).toBeCloseTo(50 * Math.PI, 9);
  });
});

describe('turns', () => {
  it('tighter than the die are finished round a rod that fits inside the inner foot', () => {
    const { turns } = work(beaded(tray, [bead('border', border(40, 12))])).bead('border');
    expect(turns).toHaveLength(4);
    expect(turns[0]).toMatchObject({ radius: 12, allowed: 20, rod: 7 });
  });
  it('sharp ones are told with their radius 0', () => {
    const die = sourced(halfRound({ tightestTurn: undefined }));
    const zigzag = bead(
      'zigzag',
      through([
        { x: 100, y: 100 },
        { x: 300, y: 300 },
        { x: 500, y: 100 },
      ]),
      { die },
    );
    expect(work(beaded(tray, [zigzag])).bead('zigzag').tracks[0]?.tightest).toBe(0);
  });
  it('of a ring are its radius', () => {
    expect(
      work(beaded(tray, [bead('ring', circle(300, 200, 15))]))
        .bead('ring')
        .turns.every((turn) => turn.radius === 15),
    ).toBe(true);
  });
});

describe('ends that run off, written on the edge or past it', () => {
  const off = { start: 'run off', finish: 'run off' } as const;
  it('leave the sheet at the edge: the bead is as long as the sheet is wide, and not too near that edge', () => {
    for (const over of [0, 1e-7, 2, 40]) {
      const { tracks, length, spacings } = work(beaded(tray, [bead('rib', line(-over, 100, 600 + over, 100), off)])).bead('rib');
      expect(length).toBeCloseTo(600, 6);
      expect(tracks[0]?.start?.at.x).toBeCloseTo(0, 6);
      expect(tracks[0]?.finish?.at.x).toBeCloseTo(600, 6);
      expect(spacings[0]).toMatchObject({ to: 'edge', found: 100 });
      // On until both feet have left the sheet, half the mark's width, or as far as written.
      expect(tracks[0]?.path.start.x).toBeCloseTo(-Math.max(5, over), 6);
    }
  });
  /** A U, 570 wide, its arms 180 wide. */
  const arms = [
    { x: 0, y: 0 },
    { x: 570, y: 0 },
    { x: 570, y: 280 },
    { x: 390, y: 280 },
    { x: 390, y: 20 },
    { x: 180, y: 20 },
    { x: 180, y: 280 },
    { x: 0, y: 280 },
  ];
  it('do not go on over a notch to the sheet on its other side', () => {
    // A bead in the left arm, its end on the notch's rim, and the same turned half round.
    const lengthOf = (turned: boolean): number => {
      const put = ({ x, y }: { x: number; y: number }) => (turned ? { x: -x, y: -y } : { x, y });
      const [from, to] = [put({ x: 180, y: 150 }), put({ x: 100, y: 150 })];
      const rib = bead('rib', line(from.x, from.y, to.x, to.y), { start: 'run off', finish: 'open' });
      return work(beaded(polygonPanel(arms.map(put), flat), [rib])).bead('rib').length;
    };
    expect(lengthOf(false)).toBeCloseTo(80, 6);
    expect(lengthOf(true)).toBeCloseTo(80, 6);
  });
  it('of a slanting bead whose one foot is past the edge already do not go on to the next sheet', () => {
    const rib = bead('rib', line(150, 32, 178, 60), { start: 'open', finish: 'run off' });
    const { path, finish } = work(beaded(polygonPanel(arms, flat), [rib])).bead('rib').tracks[0] ?? {};
    expect(finish?.at.x).toBeCloseTo(180, 6);
    expect(pathPoints(path, 2).at(-1)?.at.x).toBeLessThan(190);
  });
});

describe('a bead off the sheet', () => {
  it('is told of a ring or an arc that pokes out between its quarters', () => {
    const ring = bead('ring', circle(100, 100, 60));
    const wedge = polygonPanel(
      [
        { x: 0, y: 120 },
        { x: 120, y: 0 },
        { x: 400, y: 0 },
        { x: 400, y: 400 },
        { x: 0, y: 400 },
      ],
      flat,
    );
    // The slanting edge passes 56.6 from the ring's middle; left, right, top and bottom of the ring are on the sheet.
    expect(work(beaded(wedge, [ring])).result.unworked).toMatchObject([{ id: 'ring', kind: 'off-the-sheet' }]);
    expect(work(beaded(wedge, [bead('ring', circle(100, 100, 56))])).result.unworked).toEqual([]);
  });
  it('is told with the place', () => {
    expect(work(beaded(tray, [bead('rib', line(100, 100, 700, 100))])).result.unworked).toMatchObject([
      {
        kind: 'off-the-sheet',
        message: 'rib lies off the sheet at (700 mm, 100 mm): keep its points on the sheet, or end it with `ends run off`',
      },
    ]);
  });
  it('is not when it is meant to run off, or ends on the very edge', () => {
    const off = bead('rib.1', line(100, 100, 500, 100), { start: 'run off', finish: 'run off' });
    expect(work(beaded(tray, [off, bead('rib.2', line(0, 300, 600, 300))])).result.unworked).toEqual([]);
  });
});
