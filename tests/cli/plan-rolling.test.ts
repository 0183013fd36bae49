import { describe, expect, it } from 'vitest';
import { folder, planish } from './bench.js';

const shop = `units inch
material mild_steel { gauge table steel  density 7850 kg/m3  elongation 34 %  hardening 0.20 }
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  bend radius 1/16 k 0.42 }
roller hand_roller { throat 8  thickest 16 ga of mild_steel  arm 2 }
die half_round_3_8 { round  width 3/8  depth 1/8  tightest turn 3/4  per pass 1/16 }
die vee_1_4 { vee  width 1/4  depth 1/16  tightest turn 1/2 }
`;
const floor = (inset: string): string => `with "shop.planish"
units inch
panel floor {
  sheet crs_18
  outline rectangle 16 by 12
  bead border { die half_round_3_8  up  rectangle inset ${inset} corner 1 }
  bead rib { die half_round_3_8  up  line from (4, 6) to (12, 6)  ends closed }
  bead mark { die vee_1_4  down  line from (0, 11 1/4) to (16, 11 1/4)  ends run off }
  cross_break up depth 1/8
}
panel plain { sheet crs_18  outline rectangle 4 by 4 }
`;
const here = folder({
  'shop.planish': shop,
  'floor.planish': floor('1 1/2'),
  'deep.planish': floor('1 1/2').replace('16 by 12', '40 by 30'),
});

describe('planish plan, for beads', () => {
  it('says set-ups, sides, ends and depths; what lies inside a border before the border', async () => {
    const ran = await planish(here, ['plan', 'floor.planish', 'floor']);
    expect(ran).toMatchObject({ code: 0, errors: '' });
    // The border crosses every level line twice, 0.072 in each: the sheet is 9/64 in wider, and the rib begins 5/64 in farther on.
    expect(ran.text).toBe(`floor
  Rolling, before any bend, on hand_roller
  fit half_round_3_8; the sheet face up
   1  rib
      from (4 5/64−, 6 7/64) to (12 5/64−, 6 7/64), the frame over the top
      2 passes, set to 0.063 in, then 0.125 in from flat
   2  border
      all round from (2 37/64−, 1 35/64), the frame outside
      2 passes, set to 0.063 in, then 0.125 in from flat
  fit vee_1_4; turn the sheet over, face down
   3  mark
      from (16 9/64, 11 29/64−) at the edge to (0, 11 29/64−) at the edge, the frame over the top
      1 pass, set to 0.063 in from flat
  The dies are changed once, the sheet is turned over once. Places count from the left and the bottom edge of the sheet as it is cut, 16 9/64 × 12 1/4− in; the end named first goes in first, the sheet running away with the frame on your right. Roll each depth right along before you set the next.
  Trim after rolling: bottom up to 0.108 in; right up to 0.072 in; top up to 0.108 in; left up to 0.072 in.
  Then, still before any bend: cross-break up, the middle 1/8 in proud.

`);
  });

  it('tells programs the same in mm', async () => {
    const ran = await planish(here, ['plan', 'floor.planish', '--json']);
    const { parts } = JSON.parse(ran.text) as {
      parts: { name: string; rolling?: { possible: boolean; die_changes: number; turn_overs: number; steps: Record<string, unknown>[] } }[];
    };
    expect(parts.map(({ name, rolling }) => [name, rolling?.steps.map(({ track, lies }) => `${String(track)} ${String(lies)}`)])).toEqual([
      ['floor', ['rib face up', 'border face up', 'mark face down']],
      ['plain', undefined],
    ]);
    expect(parts[0]?.rolling).toMatchObject({ possible: true, die_changes: 1, turn_overs: 1 });
    expect(parts[0]?.rolling?.steps[0]).toMatchObject({ die: 'half_round_3_8', depths_mm: [1.5875, 3.175], throat_mm: 203.2, fits: true });
  });

  it('a bead that no roller reaches is said, and makes the exit code 1', async () => {
    const ran = await planish(here, ['plan', 'deep.planish', 'floor']);
    expect(ran.code).toBe(1);
    expect(ran.text).toMatch(/out of reach: [\d /+−]+ of sheet, and the throat is 8/);
  });
});
