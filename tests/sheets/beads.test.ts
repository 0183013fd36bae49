import { describe, expect, it } from 'vitest';
import { memoryFiles } from '../../server/files.js';
import { homeUnit } from '../../server/model/dimension.js';
import { readFonts } from '../../server/node-sheets.js';
import { createProject, type PartResult } from '../../server/project.js';
import { besidePath } from '../../server/sheets/bead-paths.js';
import { drawBlank, patternDxf, patternSvg, picture, readType } from '../../server/sheets/index.js';

const shop = `units millimetre
material mild_steel { density 7850 kg/m3  modulus 205 GPa  elongation 34 % }
sheet steel_10 { material mild_steel  thickness 1  bend radius 1 k 0.42 }
die round_10 { round  width 10  depth 2 }
die step_1 { step  width 4  depth 1 }
`;
const roller = 'roller hand_roller { throat 200  arm 60 }\n';
const panel = (...rows: readonly string[]): PartResult => {
  const text = `${shop}${roller}panel door {\n  sheet steel_10\n  outline rectangle 600 by 500\n  ${rows.join('\n  ')}\n}\n`;
  const [part] = createProject({ files: memoryFiles({ '/job/a.planish': text }), root: '/job' }).parts('/job/a.planish');
  if (part === undefined) throw new Error('no part');
  return part;
};
const metric = { unit: homeUnit('millimetre') };
const rib = (y: number, rest = ''): string => `bead rib { die round_10  up  line from (0, ${y}) to (600, ${y})  ends run off ${rest} }`;
const shown = (result: PartResult): string => picture(result, metric).svg;

describe('the picture of beads', () => {
  it('has the middle of each, its feet half the die’s width to either side, and a tooltip', () => {
    const svg = shown(panel(rib(100)));
    const own = /data-id="bead:rib">(.*?)<\/g>/s.exec(svg.slice(svg.indexOf('class="strokes"')))?.[1] ?? '';
    expect(own).toContain('<title>rib: bead up, round_10, 600 long');
    // It runs off: on past both edges until the die has left the sheet, half its width.
    expect(own).toMatch(/class="bead_up" [^>]*d="M-5 -100L605 -100"/);
    const feet = [...own.matchAll(/class="bead_edge" [^>]*d="M-5 (-[\d.]+)L/g)].map((match) => Number(match[1])).sort((a, b) => a - b);
    expect(feet).toEqual([-105, -95]);
    expect(own).toMatch(/class="bead_body" stroke-width="10"/);
  });
  it('tells up from down', () => {
    const svg = shown(panel(rib(100).replace('  up', '  down')));
    expect(svg).toContain('class="bead_down"');
    expect(svg).not.toContain('class="bead_up"');
  });
  it('draws the frame, the distance and what lies beyond the throat at a bead out of reach', () => {
    const svg = shown(panel(rib(240)));
    const reach = svg.slice(svg.indexOf('class="areas"'));
    expect(reach).toContain('data-id="reach:rib"');
    expect(reach).toContain('class="area out_of_reach"');
    expect(reach).toContain('class="frame"');
    // 240 mm from the nearer edge, and the throat is 200.
    expect(reach).toMatch(/<text class="text dimension middle fault"[^>]*>240 of 200</);
  });
  it('says nothing of reach without a roller', () => {
    const result = panel(rib(240));
    const bare = {
      ...result,
      beads:
        result.beads === undefined ? undefined : { ...result.beads, beads: result.beads.beads.map((bead) => ({ ...bead, reaches: [] })) },
    };
    expect(picture(bare, metric).svg).not.toContain('reach:');
  });
  it('draws a band by its two steps and the sheet between', () => {
    const svg = shown(panel('band raised { die step_1  up  width 80  line from (100, 100) to (400, 100) }'));
    expect(svg.match(/class="bead_up"/g)).toHaveLength(2);
    // Middles of the steps: half of the 4 mm shoulder in from the outer feet at 60 and 140.
    expect(svg).toContain('d="M100 -62L400 -62"');
    expect(svg).toContain('d="M100 -138L400 -138"');
  });
  it('is the plain blank for a part without roller work', () => {
    expect(shown(panel('hole 5 at (100, 100)'))).not.toMatch(/bead|reach/);
  });
});

describe('a path set off to its left', () => {
  it('keeps corners round: arcs shrink or grow by what it is set off', () => {
    const corner = {
      start: { x: 0, y: 0 },
      moves: [
        { kind: 'line', to: { x: 50, y: 0 } },
        { kind: 'arc', to: { x: 60, y: 10 }, centre: { x: 50, y: 10 }, turn: 'left' },
        { kind: 'line', to: { x: 60, y: 40 } },
      ],
      closed: false,
    } as const;
    expect(besidePath(corner, 4)).toEqual({
      start: { x: 0, y: 4 },
      moves: [
        { kind: 'line', to: { x: 50, y: 4 } },
        { kind: 'arc', to: { x: 56, y: 10 }, centre: { x: 50, y: 10 }, turn: 'left' },
        { kind: 'line', to: { x: 56, y: 40 } },
      ],
      closed: false,
    });
    // Of an arc of radius 10 nothing is left 12 to its inside: the straights go on to their ends and are joined.
    expect(besidePath(corner, 12).moves.map(({ kind }) => kind)).toEqual(['line', 'line', 'line']);
  });
});

describe('the pattern of a beaded panel', async () => {
  const type = await readType(readFonts());
  const result = panel(rib(100));
  const cut = result.beads?.drawIn?.asCut;
  const options = { ...metric, beads: result.beads, beadsLie: 'as cut' } as const;
  if (cut === undefined) throw new Error('no sheet to cut');
  const takes = result.beads?.beads[0]?.takeIn.used ?? 0;

  it('is the sheet before rolling: higher by what the bead takes in', () => {
    expect(takes).toBeGreaterThan(0.1);
    expect(cut.height).toBeCloseTo(500 + takes, 6);
    expect(cut.width).toBeCloseTo(600, 6);
  });
  it('has the bead’s line on a layer of its own, in SVG and DXF', () => {
    expect(patternSvg(result.part, cut, options, type)).toContain('This is the sheet before rolling');
    const dxf = patternDxf(result.part, cut, result.beads).replace(/\r/g, '');
    expect(dxf).toMatch(/0\nLINE\n {2}8\nbead_up\n/);
    // Half of what it takes in comes from either side of its middle.
    const y = Number(/LINE\n {2}8\nbead_up\n 10\n[^\n]+\n 20\n([^\n]+)\n/.exec(dxf)?.[1]);
    expect(y).toBeCloseTo(100 + takes / 2, 6);
  });
  it('keeps the arcs of a bead as arcs', () => {
    const round = panel('bead ring { die round_10  down  circle round (150, 150) radius 60 }');
    const dxf = patternDxf(round.part, round.beads?.drawIn?.asCut ?? cut, round.beads).replace(/\r/g, '');
    const own = dxf.slice(dxf.indexOf('ENTITIES'));
    expect(own).toMatch(/POLYLINE\n {2}8\nbead_down\n/);
    expect(own.slice(own.indexOf('bead_down'))).toMatch(/\n 42\n/);
  });
});

describe('other roller work in the drawings', async () => {
  const type = await readType(readFonts());
  const asCut = (result: PartResult) => {
    const blank = result.beads?.drawIn?.asCut ?? result.blank.blank;
    if (blank === undefined) throw new Error('no blank');
    return { blank, options: { ...metric, beads: result.beads, beadsLie: 'as cut' } as const };
  };
  it('marks a tip where its sheet begins to turn, not at the finished edge', () => {
    const result = panel('tip top width 8 up');
    const { blank, options } = asCut(result);
    // By hand: the flat ends 1 + 1 in from the finished edge at 500; the bend and 6 of flat lie beyond: 6 + π/2 × 1.42 = 8.2305.
    expect(blank.height).toBeCloseTo(498 + 8.2305, 3);
    const dxf = patternDxf(result.part, blank, result.beads).split('\r\n');
    // A line's two ends: groups 20 and 21 of the entity.
    const at = dxf.flatMap((value, i) => (value === 'bend_up' && dxf[i - 2] === 'LINE' ? [Number(dxf[i + 4]), Number(dxf[i + 10])] : []));
    expect(at).toEqual([expect.closeTo(498, 6), expect.closeTo(498, 6)]);
    const svg = patternSvg(result.part, blank, options, type);
    expect(svg).toContain('tip up 90°  8 wide');
    expect(svg).toContain('where the tipped edge begins to turn');
  });
  it('shows the foot of a pressed rim and says how deep, and a cross-break by its middle', () => {
    const svg = shown(panel('dimple 40 up depth 4 at (100, 100), (400, 100)', 'cross_break down depth 3'));
    // The cone's length down the slope is 4 √2: the foot lies at 20 + 5.657.
    expect(svg).toMatch(/class="bead_edge" [^>]*cx="100" cy="-100" r="25.6568/);
    expect(svg).toContain('>2 × rim up 4<');
    expect(svg).toContain('>cross-break down, middle 3 proud<');
  });
  it('names a ring on the sheet as cut, where it has no straight to write along', () => {
    const result = panel('bead ring { die round_10  up  circle round (300, 250) radius 100 }');
    const { blank, options } = asCut(result);
    expect(drawBlank(result.part, blank, options).spotLabels.map(({ text }) => text)).toEqual(['ring  up  round_10']);
  });
  it('shows a load, where the panel gives most, and what a bead more or fewer would do', () => {
    const result = panel(
      'repeat 3 every 100 along y { bead rib { die round_10  up  line from (0, 150) to (600, 150)  ends run off } }',
      'load patch 50 N at (300, 250) over 60 by 40 held all simply',
    );
    const svg = shown(result);
    expect(svg).toMatch(/class="load" [^>]*d="M270 -230L330 -230L330 -270L270 -270L270 -230Z"/);
    expect(svg).toMatch(/>gives [\d.]+ with 3 beads; 2 beads [\d.]+; 4 beads [\d.]+; flat [\d.]+</);
    expect(svg).toContain('first note');
  });
});
