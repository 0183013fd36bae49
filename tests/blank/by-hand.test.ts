/**
 * Blanks worked out by hand from the text. All in 2 mm sheet bent to an inside radius of 3 mm, so that at 90°
 *   allowance = π/2 · (3 + 0.4 · 2) = 5.969026, and each leg loses 3 + 2 = 5 to its outside sharp corner or 3 to its inside one.
 */
import { describe, expect, test } from 'vitest';
import { layOut } from '../../server/blank/index.js';
import type { Blank } from '../../server/blank/types.js';
import type { Point } from '../../server/shape/path.js';
import { modelOf } from '../model/build.js';

const bench = `units millimetre
material steel { density 7850 kg/m3 }
sheet s { material steel  thickness 2  bend radius 3 k 0.40 }
sheet d { material steel  thickness 2  bend radius 3 din }
`;
const square = (Math.PI / 2) * 3.8;
const eighth = (Math.PI / 4) * 3.8;
const threeEighths = ((3 * Math.PI) / 4) * 3.8;
/** (3 + 2) · tan 22.5°, what a leg loses to the sharp outside corner of a 45° bend. */
const off45 = 5 * Math.tan(Math.PI / 8);

/** @param warnings the rules that are expected to speak, none of them an error */
const blankOf = (part: string, ...warnings: readonly string[]): Blank => {
  const model = modelOf(`${bench}${part}`);
  expect(model.findings).toEqual([]);
  const made = model.part('a');
  if (made?.kind !== 'panel' && made?.kind !== 'section') throw new Error('no part a');
  const { blank, findings } = layOut(made);
  expect(findings.map(({ severity, rule }) => (severity === 'error' ? severity : rule))).toEqual(warnings);
  if (blank === undefined) throw new Error('no blank');
  return blank;
};
const size = (blank: Blank, width: number, height: number): void => {
  expect(blank.width).toBeCloseTo(width, 6);
  expect(blank.height).toBeCloseTo(height, 6);
};
const centres = (blank: Blank, ...expected: readonly (readonly [number, number])[]): void => {
  expect(blank.cutouts).toHaveLength(expected.length);
  for (const [i, [x, y]] of expected.entries()) near(blank.cutouts[i]?.centre, x, y);
};
const near = (point: Point | undefined, x: number, y: number): void => {
  expect(point?.x).toBeCloseTo(x, 6);
  expect(point?.y).toBeCloseTo(y, 6);
};
const bendAt = (blank: Blank, id: string): Point | undefined => blank.bends.find((bend) => bend.id === id)?.from;
const corners = (blank: Blank): readonly string[] =>
  blank.outline.map(({ to }) => [to.x, to.y].map((v) => String(Math.round(v * 1000) / 1000 + 0)).join(','));

describe('a box', () => {
  test('100 by 60 over everything, four walls of 20: holes on every wall land where its own x and y say', () => {
    const blank = blankOf(`panel a { sheet s  outline rectangle 100 by 60
      edge top, bottom, left, right { flange 20 up }
      hole 4 at (10, 15)
      hole 4 on top at (30, 12)
      hole 4 on bottom at (30, 12)
      hole 4 on left at (25, 12)
      hole 4 on right at (25, 12)
    }`);
    size(blank, 15 + square + 90 + square + 15, 15 + square + 50 + square + 15);
    const [x, y] = [15 + square - 5, 15 + square - 5]; // from the part's corner to the blank's
    centres(
      blank,
      [x + 10, y + 15],
      [x + 30, 15 + square + 50 + square + (12 - 5)],
      [x + 30, 15 - (12 - 5)],
      [15 - (12 - 5), y + 25],
      [15 + square + 90 + square + (12 - 5), y + 25],
    );
  });

  test('inside sizes lose 3 at a bend, flat sizes nothing', () => {
    size(blankOf('panel a { sheet s  outline rectangle 100 by 60 inside  edge top { flange 20 up } }'), 100, 57 + square + 17);
    size(blankOf('panel a { sheet s  outline rectangle 100 by 60 flat  edge top { flange 20 up } }'), 100, 60 + square + 20);
  });

  test('one step of a drawn outline may be measured otherwise than the rest', () => {
    const blank = blankOf(`panel a { sheet s
      outline {
        from (0, 0)
        right 100 as foot inside
        up 40
        left 100 as crown
        close
      }
      edge foot, crown { flange 20 up }
    }`);
    size(blank, 100, 15 + square + (40 - 3 - 5) + square + 15);
  });
});

describe('chains and angles', () => {
  test('up and down is a Z, down and down a return: both lose 5 at each side of each bend', () => {
    const blank = blankOf(`panel a { sheet s  outline rectangle 100 by 60
      edge top { flange 20 up  flange 15 down }
      edge bottom { flange 20 down  flange 15 down }
      hole 4 on top.2 at (30, 9)
      hole 4 on bottom.2 at (30, 9)
    }`);
    const chain = square + 10 + square + 10;
    size(blank, 100, chain + 50 + chain);
    centres(blank, [30, chain + 50 + square + 10 + square + (9 - 5)], [30, 10 - (9 - 5)]);
  });

  test('45° runs to the sharp corner, 135° to the outermost tangent', () => {
    const blank = blankOf(`panel a { sheet s  outline rectangle 100 by 60
      edge top { flange 20 up 45 }
      edge bottom { flange 20 up 135 }
      hole 4 on top at (50, 14)
      hole 4 on bottom at (50, 14)
    }`);
    const base = 60 - off45 - 5;
    size(blank, 100, 15 + threeEighths + base + eighth + (20 - off45));
    centres(blank, [50, 15 + threeEighths + base + eighth + (14 - off45)], [50, 15 - (14 - 5)]);
  });

  test('DIN 6935: k = 0.65 + 0.5 lg(r/s) on half the thickness; a turn of 15° or less loses nothing', () => {
    const blank = blankOf('panel a { sheet d  outline rectangle 100 by 60  edge top { flange 20 up }  edge right { flange 20 up 10 } }');
    const neutral = 3 + (0.65 + 0.5 * Math.log10(3 / 2)) * 1; // Source: DIN 6935:2011-10
    size(blank, 120, 55 + (Math.PI / 2) * neutral + 15);
  });
});

describe('a drawn outline with an arc and a sloping edge', () => {
  const steps = ['right 100 as foot', 'up 40', 'line to (80, 60) as slope', 'left 40', 'arc in to (30, 70) radius 10', 'up 30', 'left 30'];
  const drawn = (lines: readonly string[], cut: string): Blank =>
    blankOf(`panel a { sheet s
      outline {
        ${lines.join('\n')}
        close
      }
      edge foot { flange 15 down }
      edge slope { flange 20 up }
      ${cut}
    }`);
  const r = Math.SQRT1_2;
  const rise = 10 + square - 5; // from the part's foot to the blank's

  test('the flange on the slope stands square to it, and x on it counts from where the step began', () => {
    const blank = drawn(['from (0, 0)', ...steps], 'hole 4 on slope at (8, 15)');
    // The flange is as long as the slope is drawn, so its end stands square to the slope at (100, 40): its tangent line lies 5 inside, its cut edge 15 beyond the bend.
    expect(blank.width).toBeCloseTo(100 + (square + 15 - 5) * r, 6);
    expect(blank.height).toBeCloseTo(100 + rise, 6);
    const out = square + (15 - 5) - 5; // from the finished edge
    centres(blank, [100 - 8 * r + out * r, 40 + 8 * r + out * r + rise]);
    expect(blank.outline.filter((move) => move.kind === 'arc').map((move) => (move.kind === 'arc' ? move.centre : undefined))).toEqual([
      { x: expect.closeTo(40, 6) as number, y: expect.closeTo(70 + rise, 6) as number },
    ]);
  });

  test('drawn the other way round, the blank is the same, and x counts from the other end', () => {
    const back = [
      'from (0, 0)',
      'up 100',
      'right 30',
      'down 30',
      'arc in to (40, 60) radius 10',
      'right 40',
      'line to (100, 40) as slope',
      'down 40',
      'left 100 as foot',
    ];
    const blank = drawn(back, 'hole 4 on slope at (8, 15)  hole 3 on foot at (70, 10)');
    expect(corners(blank)).toEqual(corners(drawn(['from (0, 0)', ...steps], '')));
    const out = square + (15 - 5) - 5;
    centres(blank, [80 + 8 * r + out * r, 60 - 8 * r + out * r + rise], [30, 10 - (10 - 5)]);
  });

  test('turned over left for right, everything is', () => {
    const left = [
      'from (0, 0)',
      'right 100 as foot',
      'up 100',
      'left 30',
      'down 30',
      'arc in to (60, 60) radius 10',
      'left 40',
      'line to (0, 40) as slope',
    ];
    const one = drawn(['from (0, 0)', ...steps], '');
    const other = drawn(left, '');
    expect(other.width).toBeCloseTo(one.width, 6);
    const turnedOver = (blank: Blank): readonly string[] =>
      blank.outline.map(({ to }) => [blank.width - to.x, to.y].map((v) => v.toFixed(5).replace('-0.0', '0.0')).join(',')).sort();
    expect(turnedOver(other)).toEqual(one.outline.map(({ to }) => [to.x, to.y].map((v) => v.toFixed(5)).join(',')).sort());
  });
});

describe('a flange on a stretch of an edge, with another on one of its ends', () => {
  // The stretch is 30 long. The end flange takes 5 of it; its bend zone and 5 of flat lie beyond.
  const strip = (end: 'left' | 'right'): Blank =>
    blankOf(
      `panel a { sheet s  outline rectangle 100 by 60
      edge top from 10 to 40 { flange 20 up { edge ${end} { flange 10 up } } }
      corner all relief none
    }`,
      'corner/relief-missing',
    );

  test('at the right end: up the step to the cut edge, no slit beside a bend that stands further in', () => {
    expect(corners(strip('right'))).toEqual([
      ...['100,0', '100,60', '40,60', '40,55', '35,55', '35,60.969', '45.969,60.969', '45.969,75.969', '10,75.969'],
      ...['10,54.5', '8,54.5', '8,60', '0,60', '0,0'],
    ]);
  });
  test('at the left end the same, turned over', () => {
    expect(corners(strip('left'))).toEqual([
      ...['100,0', '100,60', '42,60', '42,54.5', '40,54.5', '40,75.969', '4.031,75.969', '4.031,60.969', '15,60.969'],
      ...['15,55', '10,55', '10,60', '0,60', '0,0'],
    ]);
  });
  test('on an edge drawn the other way round the stretch counts from where the step began', () => {
    const blank = blankOf(
      `panel a { sheet s
      outline {
        from (0, 0)
        up 60
        right 100 as crown
        down 60
        close
      }
      edge crown from 10 to 40 { flange 20 up { edge start { flange 10 up } } }
      corner all relief none
    }`,
      'corner/relief-missing',
    );
    expect(corners(blank)).toEqual(corners(strip('left')));
  });
});

describe('sections', () => {
  test('a hat: legs between opposite turns over everything, the crown over its outsides, holes from the leg before', () => {
    const blank = blankOf(`section a { sheet s  length 200
      leg 20
      turn up 90
      leg 30 as side
      turn down 90
      leg 40
      turn down 90
      leg 30
      turn up 90
      leg 20
      hole 4 on side at (60, 15)
      hole 4 on leg.3 at (50, 20)
    }`);
    size(blank, 200, 15 + square + 20 + square + 30 + square + 20 + square + 15);
    centres(blank, [60, 15 + square + (15 - 5)], [50, 15 + square + 20 + square + (20 - 5)]);
    expect(bendAt(blank, 'turn.3')?.y).toBeCloseTo(15 + square + 20 + square + 30 + square / 2, 6);
  });
  test('a Z turned 135°, its second bend to a radius of 4: every leg to the outermost tangents', () => {
    const blank = blankOf(`section a { sheet s  length 200
      leg 20
      turn up 135
      leg 30
      turn down 135 radius 4
      leg 20
    }`);
    size(blank, 200, 15 + threeEighths + (30 - 5 - 6) + ((3 * Math.PI) / 4) * 4.8 + (20 - 6));
  });
});

describe('cuts in patterns', () => {
  test('a repeat counts along, and what stands in it may use the count', () => {
    const blank = blankOf(`panel a { sheet s  outline rectangle 100 by 60
      repeat 3 every 20 along x as i from 1 { hole 2 * i at (10, 10 + i) }
    }`);
    centres(blank, [10, 11], [30, 12], [50, 13]);
    expect(blank.cutouts.map((cut) => cut.circle?.radius)).toEqual([1, 2, 3]);
  });
  test('a slot lies along x; turned 45° anticlockwise its ends do', () => {
    const blank = blankOf(`panel a { sheet s  outline rectangle 100 by 60
      slot 4 by 10 at (20, 20)
      slot 4 by 10 at (60, 20) turned 45
    }`);
    // Flats 6 long between half circles of radius 2.
    const straights = (n: number) => blank.cutouts[n]?.loop.map((move) => [move.to.x, move.to.y].map((v) => v.toFixed(4)).join(',')).sort();
    expect(straights(0)).toEqual(['17.0000,18.0000', '17.0000,22.0000', '23.0000,18.0000', '23.0000,22.0000']);
    const r = Math.SQRT1_2;
    expect(straights(1)).toEqual(
      (
        [
          [3, 2],
          [3, -2],
          [-3, 2],
          [-3, -2],
        ] as const
      )
        .map(([u, v]) => `${(60 + (u - v) * r).toFixed(4)},${(20 + (u + v) * r).toFixed(4)}`)
        .sort(),
    );
  });
});
