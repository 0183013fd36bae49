import { describe, expect, it } from 'vitest';
import type { MarkupContent } from 'vscode-languageserver';
import { defaultSettings } from '../../server/lsp/ask.js';
import { hover } from '../../server/lsp/hover.js';
import { type Scene, scene, shop, wordsIn } from './support.js';

const textAt = (source: string, settings = defaultSettings): string => {
  const here = scene(source, { 'shop.planish': shop }, settings);
  const found = hover(here.ask, here.position);
  return found === undefined ? 'nothing' : (found.contents as MarkupContent).value;
};
const wordAt = (here: Scene): string => {
  const range = hover(here.ask, here.position)?.range;
  return range === undefined ? '' : wordsIn(here.text, range);
};
const head = 'with "shop.planish"\nunits inch\n';
const gate = (body: string): string => `${head}/// Two off.\npanel gate {\n  sheet crs_18\n  outline rectangle 12 by 8\n${body}\n}\n`;

describe('hover on a number', () => {
  it('a size in both units', () => expect(textAt(gate('  hole 3/|8 at (1, 1)'))).toContain('3/8 in (0.375 in, 9.525 mm)'));
  it('how a number with a hyphen was read', () =>
    expect(textAt(gate('  hole 1/4 at (1-3/|8, 1)'))).toMatch(/1 3\/8 in \(1\.375 in, 34\.925 mm\)[\s\S]*read as 1 3\/8/));
  it('a number that no unit was written for, and what it would be as a length', () => {
    expect(textAt('units inch\nlet gap = 1/|4\n')).toContain('1/4, without a unit: 1/4 in (0.25 in, 6.35 mm) where a length is wanted');
  });
  it('only one unit when the other is not wanted', () => {
    const settings = { ...defaultSettings, display: { denominator: 64, secondUnit: false } };
    expect(textAt(gate('  hole 3/|8 at (1, 1)'), settings)).not.toContain('mm');
  });
  it('millimetres in an inch file', () => expect(textAt(gate('  hole 12.|7 mm at (1, 1)'))).toContain('1/2 in (0.5 in, 12.7 mm)'));
  it('how far a flange turns, and what the drawing would call it', () =>
    expect(textAt(gate('  edge top { flange 1 up 12|0 }'))).toContain('turned 120° from flat, 60° included'));
  it('a share is no length', () =>
    expect(
      textAt('units inch\nmaterial m { density 7850 kg/m3 }\nsheet s { material m thickness 1/16 bend radius 1/16 k 0.4|2 }\n'),
    ).not.toContain(' in'));
});

describe('hover on a name', () => {
  it('a value: what it comes to, how it is made, its note', () => {
    const said = textAt(`units inch\n/// Over the beads.\nlet wide = 10 + 2 in\npanel gate { outline rectangle wi|de by 8 }\n`);
    expect(said).toContain('wide = 12 in');
    expect(said).toContain('let wide = 10 + 2 in');
    expect(said).toContain('Over the beads');
  });
  it('a sheet of another file: its statement and where it stands', () => {
    const said = textAt(gate('').replace('crs_18', 'cr|s_18'));
    expect(said).toContain('sheet crs_18 { material mild_steel thickness 18 ga');
    expect(said).toContain('line 3');
  });
  it('a part: blank, mass, bends, sheet, note', () => {
    // 12 × 8 in of 0.0478 in steel at 7850 kg/m³: 96 in² × 0.0478 in = 4.5888 in³ = 75.198 cm³, so 0.590 kg or 1.30 lb. Worked by hand.
    const said = textAt(gate('').replace('panel gate', 'panel ga|te'));
    expect(said).toContain('blank 12 × 8 in (304.8 × 203.2 mm)');
    expect(said).toContain('1.3 lb, 0 bends');
    expect(said).toContain('sheet crs\\_18, 0.048 in (1.214 mm) thick');
    expect(said).toContain('Two off.');
  });
  it('a measured property: its value', () => expect(textAt(gate('  check gate.blank.wid|th < 13 in'))).toContain('= 12 in'));
});

describe('hover on a word', () => {
  it('a statement: how it is written, what it is', () => {
    const said = textAt(gate('  ho|le 1/4 at (1, 1)'));
    expect(said).toMatch(/```planish\nhole [\s\S]*```/);
  });
  it('a flange: the sums of its bend and their source', () => {
    // 90° at inside radius 1/16 in, K 0.42, 0.0478 in: π/2 × (0.0625 + 0.42 × 0.0478) = 0.12971 in. Neutral-axis formula, by hand.
    const said = textAt(gate('  edge top { fla|nge 3/4 down }'));
    expect(said).toContain('**bend top.1**, down 90° (90° included)');
    expect(said).toMatch(/allowance 0\.130 in \(3\.29\d mm\), by/);
    expect(said).toContain('Source: ');
    // Setback of a square bend is radius plus thickness: 0.0625 + 0.0478 = 0.1103 in; deduction 2 × 0.1103 − 0.12971 = 0.0909 in.
    expect(said).toContain('setback 0.110 in');
    expect(said).toContain('deduction 0.091 in');
  });
  it('how much of the flat sheet a flange takes', () => {
    // The bend 0.1297 in and the flange less its setback, 3/4 − 0.1103 = 0.6397 in.
    const said = textAt(gate('  edge top { fla|nge 3/4 down }'));
    expect(said).toMatch(/inside radius 1\/16 in \(.*\), sheet 0\.048 in \(1\.214 mm\) thick/);
    expect(said).toMatch(/takes 0\.769 in \(.*\) of the flat sheet, 0\.640 in \(.*\) of it beyond the bend/);
  });
  it('a hem: how far it turns, and how much longer the blank is for it', () => {
    // Open by 1/16: π (1/32 + 0.42 × 0.0478) = 0.1612 in and 3/8 − (1/32 + 0.0478) = 0.2960 in of return, together 0.4572; less 0.0790 is 0.3782 in.
    const said = textAt(gate('  edge top, bottom { he|m 3/8 open 1/16 down }'));
    expect(said).toContain('**hems bottom.1, top.1**, down, turned 180° from flat');
    expect(said).toContain('allowance 0.161 in');
    expect(said).toMatch(/takes 0\.457 in \(.*\) of the flat sheet, 0\.296 in/);
    expect(said).toMatch(/the blank is 0\.378 in \(.*\) longer here than the finished edge/);
  });
  it('a curl: how far it goes round its wire', () => {
    // Round 1/8: 2π − arccos(0.0625 / 0.1103) = 304.5°, 5.3146 rad × (0.0625 + 0.42 × 0.0478) = 0.4389 in; less 0.1103 is 0.3286 in.
    const said = textAt(gate('  edge top { flange 1 down  cu|rl round 1/8 }'));
    expect(said).toContain('**curl top.2**, down, turned 304.5° from flat');
    expect(said).toMatch(/takes 0\.439 in \(.*\) of the flat sheet {2}\n/);
    expect(said).toMatch(/0\.329 in \(.*\) longer here/);
  });
  it('a double hem: both folds in one, and the rule of the trade beside it', () => {
    // T 0.0478 (18 gauge): 1/2 − 2.5 T = 0.3805 in of straight, twice; π (0.5 + 0.42) T = 0.1382 and π 0.42 T = 0.0631; less 1.5 T: 0.8906 in.
    const said = textAt(gate('  edge top { flange 1 down  he|m 1/2 double }'));
    expect(said).toContain('**hem top.2**, down, folded over twice');
    expect(said).toMatch(/the blank is 0\.891 in \(.*\) longer here than the finished edge/);
    expect(said).toMatch(/the sheet-metal worker’s rule is twice the hem’s width, 1\.000 in \(.*\) \(US Navy, NAVEDTRA 14251, ch\. 2\)/);
    expect(textAt(gate('  edge top { cu|rl round 1/8 down }'))).toMatch(/two and a half times the wire, 0\.313 in/);
  });
  it('a joggle: two bends, its run, and what the blank gains', () => {
    // Depth 1/8 at 45° to 1/16: middle 0.0864, straight (0.125 − 2 × 0.0864 × 0.29289) / 0.70711 = 0.1052 in, run 0.1222 + 0.0744 = 0.1966 in,
    // developed 2 × 0.06486 + 0.1052 = 0.2349 in: 0.0383 in more.
    const said = textAt(gate('  edge top { jog|gle 1/8 over 1 down }'));
    expect(said).toContain('**joggle top.1**, down, set off by 1/8 in (0.125 in, 3.175 mm): two bends of 45°, 0.105 in');
    expect(said).toMatch(/the slope runs 0\.197 in \(.*\) along the sheet and takes 0\.235 in \(.*\) of it flat: 0\.038 in/);
  });
  it('an edge rolled past half round has no included angle', () => {
    expect(textAt(gate('  edge top { rol|led radius 1 down 200 }'))).toContain('**bend top.1**, down, turned 200° from flat');
  });
  it('one step on two edges: said once for both', () => {
    const said = textAt(gate('  edge left, right { fla|nge 3/4 down }'));
    expect(said).toContain('**bends left.1, right.1**, down 90°');
    expect(said.match(/allowance/g)).toHaveLength(1);
  });
  it('where corners meet: the relief that was written, or the one that was chosen and why', () => {
    const written = textAt(gate('  edge top, left { flange 3/4 down }\n  cor|ner all relief round 1/8'));
    expect(written).toMatch(/\*\*relief round 1\/8 in\*\*: /);
    const chosen = textAt(gate('  edge top, left { flange 3/4 down }').replace('outline', 'out|line'));
    expect(chosen).toMatch(/\*\*relief \w+ .* in\*\*, chosen by the program: \S/);
  });
  it('an argument: what it is and what is taken without it', () => {
    const said = textAt(gate('  edge top { flange 3/4 down rad|ius 1/8 }'));
    expect(said).toContain('**radius**');
    expect(said).toContain('Left out:');
  });
  it('speaks of the word under the cursor only', () => {
    expect(wordAt(scene(gate('  edge top { flange 3/4 down rad|ius 1/8 }'), { 'shop.planish': shop }))).toBe('radius');
  });
  it('says nothing of a comment', () => expect(textAt(gate('  // ho|le'))).toBe('nothing'));
});

describe('hover on a bead', () => {
  const beaded = (row: string): string =>
    `${head}die round_3_8 { round width 3/8 depth 1/16 per pass 1/32 }\nroller hand_roller { throat 8 arm 2 }\npanel floor {\n  sheet crs_18\n  outline rectangle 36 by 24\n  ${row}\n}\n`;
  it('its length, what it takes in, its passes and its reach', () => {
    const said = textAt(beaded('be|ad rib { die round_3_8 up line from (8, 6) to (28, 6) }'));
    expect(said).toContain('**bead rib**, up, 20 in (508 mm) long');
    expect(said).toMatch(/takes in 0\.0\d\d in .*, between 0\.000 in .* and 0\.0\d\d in/);
    expect(said).toContain('2 passes, set to 1/32 in, then 1/16 in; each stretches it further by ');
    expect(said).toMatch(/the sheet bears [\d.]+ %: half the elongation/);
    expect(said).toContain('reach 6 in (152.4 mm) of 8 in on hand\\_roller');
  });
  it('in its braces too, and out of reach where it is', () => {
    expect(textAt(beaded('bead rib { die round_3_8 up li|ne from (8, 11) to (28, 11) }'))).toContain('out of reach');
  });
  it('of copies, the one that asks most', () => {
    const said = textAt(beaded('repeat 3 every 2 along y { be|ad rib { die round_3_8 up line from (8, 3) to (28, 3) } }'));
    expect(said).toContain('**bead rib.1 … rib.3**, up, 20 in (508 mm) long each');
    expect(said).toContain('reach 7 in');
  });
});
