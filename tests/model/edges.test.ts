import { describe, expect, it } from 'vitest';
import { panelOf } from './build.js';
import { checkFindings } from './check.js';

const gate = (...lines: readonly string[]) =>
  panelOf(`units millimetre\npanel gate {\n  outline rectangle 300 by 110\n${lines.map((line) => `  ${line}\n`).join('')}}`, 'gate');
const steps = (...lines: readonly string[]) => {
  const { edges, findings, broken } = gate(...lines);
  expect(findings).toEqual([]);
  expect(broken).toBe(false);
  return edges.flatMap((chain) => chain.steps);
};
const degrees = (n: number): number => (n * Math.PI) / 180;

describe('flanges', () => {
  it('taper, and end square, mitred or set back', () => {
    const [tapered, mitred, back, square] = steps(
      'edge top { flange 20 down to 12 }',
      'edge left { flange 20 down ends mitred 30 }',
      'edge right { flange 20 down ends back 2 radius 3 }',
      'edge bottom { flange 20 down ends square }',
    );
    expect(tapered).toMatchObject({ length: 20, taper: 12 });
    expect(mitred).toMatchObject({ ends: { kind: 'mitred', angle: degrees(30) } });
    expect(back).toMatchObject({ ends: { kind: 'back', distance: 2 }, radius: 3 });
    expect(square).toMatchObject({ ends: { kind: 'square' } });
    expect(square).not.toHaveProperty('taper');
  });
});

describe('hems, curls, joggles, tabs and rolled edges', () => {
  it('are read with their sizes, and called like flanges', () => {
    const all = steps(
      'edge top { flange 20 down  hem 8 closed as rim }',
      'edge bottom { flange 20 down  hem 8 open 2 up }',
      'edge left { hem 9 teardrop 3 up }',
      'edge right { joggle 1.2 over 12 down run 4 as land  flange 15 up  curl round 3 }',
    );
    expect(all.map((step) => [step.id, step.kind])).toEqual([
      ['top.1', 'flange'],
      ['rim', 'hem'],
      ['bottom.1', 'flange'],
      ['bottom.2', 'hem'],
      ['left.1', 'hem'],
      ['land', 'joggle'],
      ['right.2', 'flange'],
      ['right.3', 'curl'],
    ]);
    expect(all[1]).toMatchObject({ depth: 8, style: { kind: 'closed' }, direction: 'down', name: 'rim' });
    expect(all[3]).toMatchObject({ style: { kind: 'open', gap: 2 }, direction: 'up' });
    expect(all[4]).toMatchObject({ style: { kind: 'teardrop', diameter: 3 }, direction: 'up' });
    expect(all[5]).toMatchObject({ depth: 1.2, over: 12, run: 4, direction: 'down' });
    expect(all[7]).toMatchObject({ wire: 3, direction: 'up' });
  });
  it('tabs stand at their places, or in the middle; rolled edges turn as far as said', () => {
    const [some, middle, rolled] = steps(
      'edge left { tab 20 by 8 at 30, 60 }',
      'edge right { tab 20 by 8 as ear }',
      'edge top { rolled radius 40 down 200 }',
    );
    expect(some).toMatchObject({ kind: 'tab', width: 20, length: 8, at: [30, 60] });
    expect(middle).toMatchObject({ kind: 'tab', id: 'ear', at: undefined });
    expect(rolled).toMatchObject({ kind: 'rolled', radius: 40, turn: degrees(200), direction: 'down' });
  });
  it('a hem goes on turning the way of the last flange or roll, over a joggle too, and on the flange’s free edge', () => {
    const all = steps(
      'edge top { flange 20 up  joggle 1 over 8 down  hem 8 closed }',
      'edge left { rolled radius 30 down 90  hem 8 closed }',
      'edge right { flange 20 down { edge free { hem 6 closed } } }',
    );
    expect(all.map((step) => step.kind !== 'tab' && step.direction)).toEqual(['up', 'down', 'up', 'down', 'down', 'down']);
    const last = all[5];
    expect(last?.kind === 'flange' && last.edges[0]?.steps[0]).toMatchObject({ id: 'right.1.free.1', direction: 'down' });
  });
  it('several edges in one block each get their own', () => {
    expect(steps('edge top, left { hem 8 open 2 down }').map((step) => step.id)).toEqual(['top.1', 'left.1']);
  });
  it('holes after a hem lie on its return, after a joggle on its land', () => {
    const { cuts } = gate(
      'edge top { flange 20 down  hem 8 open 2  hole 3 at (20, 4) }',
      'edge left { joggle 1 over 12 down  hole 3 at (20, 6) }',
    );
    expect(cuts.map((cut) => cut.on)).toEqual(['top.2', 'left.1']);
  });
  it('where they can’t be made, the words at fault say why', () => {
    checkFindings(`units millimetre
panel gate {
  outline rectangle 300 by 110
  edge top {
    flange 20 down ends mitred 90
//                             ^^ number/out-of-range: The ends’ angle is how far each is cut away from square: more than 0° and less than 90°, not 90°. A right mitre between two square flanges is 45.
    joggle 1 over 12
//  ^^^^^^ shape/no-direction: Say which way the joggle goes: up toward the face, or down away from it.
    hem 8 closed as rim
    hem 6 closed
//  ^^^ shape/nothing-can-follow: Nothing can follow a hem, whose cut edge lies folded back on the sheet, so this hem can’t be made. A double hem is written as one: hem 3/8 double.
  }
  edge left {
    tab 20 by 8 at 30, 45
//                     ^^ shape/tabs-overlap: This tab runs into the one at 30 mm: their centres are 15 mm apart and each is 20 mm wide. Move it, or make them narrower.
    tab 10 by 8
//  ^^^ shape/nothing-can-follow: Nothing can follow tabs, which end the edge, so this tab can’t be made. Tabs of another size go in a block with a stretch of its own: edge left from 4 to 8 { tab 1 by 1/2 }.
  }
  edge right {
    rolled radius 30 down 400
//                        ^^^ number/out-of-range: How far it rolls is counted from flat: more than 0° and less than 360°, not 400°.
    flange 20 up as rim
//                  ^^^ name/repeated: rim already names another flange of this part. Give this one another name.
  }
  edge bottom {
    joggle 2 over 10 down run 10
//                            ^^ number/out-of-range: The slope takes 10 mm of 10 mm, and no land is left beyond it. Give the slope less, or the joggle more: ‘over’ runs from where the sheet leaves its plane to the end of the land.
    curl round 3 down
    hole 4 at (2, 2)
//  ^^^^ shape/no-flat-there: A hole can’t lie on a curl, which is round all over. Place it on the flat before the curl.
  }
}
panel lid {
  outline rectangle 300 by 110
  edge top { hem 8 closed }
//           ^^^ shape/no-direction: A hem goes on turning the way of the flange before it, and there is none here. Say which way it folds: up toward the face, or down away from it.
  edge left { curl round 3  flange 20 up }
//            ^^^^ shape/no-direction: A curl goes on turning the way of the flange before it, and there is none here. Say which way it rolls: up toward the face, or down away from it.
//                          ^^^^^^ shape/nothing-can-follow: Nothing can follow a curl, whose cut edge is rolled in, so this flange can’t be made. Write the flange before the curl, or take one of them out.
}`);
  });
  it('where there is no flat, no cut can lie, however it is named', () => {
    checkFindings(`units millimetre
panel gate {
  outline rectangle 300 by 110
  edge top { tab 20 by 8 as ear  hole 3 at (150, 4) }
//                               ^^^^ shape/no-flat-there: A hole can’t be placed from a tab, which is one flat with what it stands on. Place it there: in the panel’s own braces, or with the flange’s name, counted beyond its edge.
  edge left { flange 20 up  rolled radius 30 up 90 }
  hole 3 on ear at (150, 4)
//          ^^^ shape/no-flat-there: A cut can’t be placed from a tab, which is one flat with what it stands on. Place it there: in the panel’s own braces, or with the flange’s name, counted beyond its edge.
  hole 3 on left through to left.2 at (50, 10)
//                          ^^^^^^ shape/no-flat-there: A cut can’t lie on a rolled edge, which has no flat of its own. Place it on the flat before it, or drill it after rolling.
}`);
  });
  it('the missing way is offered as a fix at the end of the words', () => {
    const [finding] = gate('edge top { hem 8 closed }').findings;
    expect(finding?.fixes.map((fix) => fix.title)).toEqual(['Add down', 'Add up']);
  });
});

describe('corners', () => {
  const treatment = (text: string) => gate(text).corners[0]?.treatment;
  it('are mitred with a gap or without, lapped and butted, each with a relief', () => {
    expect(treatment('corner top left mitred')).toEqual({ kind: 'mitred', gap: 0, relief: undefined });
    expect(treatment('corner top left mitred gap 1 relief round 3')).toEqual({
      kind: 'mitred',
      gap: 1,
      relief: { kind: 'round', diameter: 3 },
    });
    expect(treatment('corner all mitred gap 1')).toMatchObject({ kind: 'mitred', gap: 1 });
    expect(treatment('corner top left lap left over top 12')).toEqual({
      kind: 'lap',
      over: 'left',
      under: 'top',
      by: 12,
      relief: undefined,
    });
    expect(treatment('corner top left lap top over left by 12 relief none')).toMatchObject({
      over: 'top',
      by: 12,
      relief: { kind: 'none' },
    });
    expect(treatment('corner top left butt top over left relief square 2')).toEqual({
      kind: 'butt',
      over: 'top',
      under: 'left',
      relief: { kind: 'square', side: 2 },
    });
  });
  it('name their own two edges, or say why not', () => {
    checkFindings(`units millimetre
panel gate {
  outline rectangle 300 by 110
  corner all lap top over left 3
//       ^^^ corner/all-has-no-order: Which edge goes over which differs from corner to corner, so all of them can’t be told at once. Write each: corner top left lap top over left 1/2.
  corner top left lap top over top 3
//                             ^^^ corner/not-its-edge: top can’t go over itself. The other edge of this corner is left.
  corner top left butt bottom over left
//                     ^^^^^^ corner/not-its-edge: bottom is not an edge of this corner, which is between top and left.
  corner top left mitred gap -1
//                           ^^ number/out-of-range: The mitre’s gap must be 0 or more, not -1 mm.
  corner top left lap top over left 0
//                                  ^ number/out-of-range: How far it laps must be more than 0, not 0 mm.
}`);
  });
});

describe('holes through a second face', () => {
  it('keep the face they go on through, by any of its names', () => {
    const { cuts, findings } = gate(
      'edge top { flange 20 up as lip }',
      'edge bottom { flange 20 up  hole 4 through to top at (50, 10) }',
      'hole 5 on lip through to base at (30, 8), (60, 8)',
    );
    expect(findings).toEqual([]);
    expect(cuts.map((cut) => [cut.on, cut.through])).toEqual([
      ['bottom.1', 'lip'],
      ['lip', 'base'],
      ['lip', 'base'],
    ]);
  });
  it('say it when there is no such face, or none is told', () => {
    checkFindings(`units millimetre
panel gate {
  outline rectangle 300 by 110
  edge top { flange 20 up }
  hole 5 through at (30, 8)
//       ^^^^^^^ hole/through-to-what: Say which face the hole goes on through: through to base, or a flange, such as through to bottom.
  hole 5 on top through to top.1 at (30, 8)
//                         ^^^^^ hole/through-its-own-face: This hole lies on top.1 itself. Name the face that it goes on through, or leave the words out.
  hole 5 on top through to lid at (30, 8)
//                         ^^^ name/unknown: There is no flange lid here. There is top.1.
}`);
  });
});
