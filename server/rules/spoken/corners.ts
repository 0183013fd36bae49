import { spoken } from './form.js';

const metal = 'units millimetre\nsheet crs_12 { thickness 1.2  bend radius 1.2 k 0.42 }\n';
const plate = (...lines: readonly string[]): string =>
  `${metal}\npanel plate {\n  sheet crs_12\n  outline rectangle 100 by 60\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;

/** What the layout of edges and corners says besides its bends. */
export const cornerRules = [
  spoken('corner/relief-missing', 'warning', {
    what: 'A corner where two bends meet is to have no relief.',
    why: 'The two bends end in the same metal: it tears, or bulges and keeps the flanges from coming square. Left out, the relief is sized from thickness and radius.',
    example: plate('edge top, left { flange 20 up }', 'corner top left relief none // warning: corner/relief-missing'),
    cure: plate('edge top, left { flange 20 up }'),
    source: 'FAA-H-8083-31 ch. 4, folding a box.',
  }),
  spoken('corner/relief-too-small', 'warning', {
    what: 'A relief is smaller than twice the bend radius.',
    why: 'It has to reach from the one bend to the other; the handbook centres it where the tangent lines cross and makes it about twice the bend radius.',
    example: plate('edge top, left { flange 20 up radius 4 }', 'corner top left relief round 5 // warning: corner/relief-too-small'),
    cure: plate('edge top, left { flange 20 up radius 4 }', 'corner top left relief round 8'),
    source: 'FAA-H-8083-31 ch. 4, folding a box.',
  }),
  spoken('corner/relief-not-cut', 'warning', {
    what: 'A relief is written at a corner where the ends of the two flanges stand clear of each other’s bends.',
    why: 'There is nothing to relieve: the ends do not reach the crossing of the tangent lines, or run past it in a way that a hole there would leave a splinter. Nothing is cut; take the words out, or write a hole of its own.',
    example: plate('edge top, left { flange 20 up ends back 8 }', 'corner top left relief round 4 // warning: corner/relief-not-cut'),
    cure: plate('edge top, left { flange 20 up ends back 8 }'),
    source: 'Plane geometry.',
  }),
  spoken('corner/flange-shorter-than-relief', 'warning', {
    what: 'A flange is so short that the usual corner relief does not fit beside it.',
    why: 'The relief is cut as large as there is room for, and the corner may still tear. Make the flange longer, or write the relief you want.',
    example: plate(
      'edge top { flange 2.6 up } // warning: corner/flange-shorter-than-relief',
      'edge left { flange 20 up radius 4 }',
    ).replace('bend radius 1.2', 'bend radius 1'),
    cure: plate('edge top { flange 12 up }', 'edge left { flange 20 up radius 4 }'),
    source: 'FAA-H-8083-31 ch. 4, folding a box.',
  }),
  spoken('corner/mitre-impossible', 'error', {
    what: 'Two edges that are to be mitred never come together.',
    why: 'Flanges meet in the plane that halves the angle between them, so both have to turn the same way; how far, and to which radius, may differ. What is folded flat, rolled or joggled stands in no plane, and meets only its like.',
    example: plate('edge top { flange 20 up }', 'edge left { flange 20 down }', 'corner top left mitred // error: corner/mitre-impossible'),
    cure: plate('edge top, left { flange 20 up }', 'corner top left mitred'),
    source: 'Plane geometry.',
  }),
  spoken('corner/lap-impossible', 'error', {
    what: 'One flange is to lie over another that it never reaches.',
    why: 'Both have to stand up from the sheet the same way, at an outward corner.',
    example: plate(
      'edge top { flange 20 up }',
      'edge left { flange 20 down }',
      'corner top left butt top over left // error: corner/lap-impossible',
    ),
    cure: plate('edge top, left { flange 20 up }', 'corner top left butt top over left'),
    source: 'Plane geometry.',
  }),
  spoken('bend/joggle-impossible', 'error', {
    what: 'A joggle’s two bends do not fit in the length it has.',
    why: 'Two equal opposite bends of the sheet’s own radius need some length to set the sheet off in. The message gives the least.',
    example: plate('edge top { joggle 3 over 12 run 1 down } // error: bend/joggle-impossible'),
    cure: plate('edge top { joggle 3 over 12 down }'),
    source: 'Plane geometry.',
  }),
  spoken('hem/shorter-than-its-fold', 'error', {
    what: 'A hem’s depth is used up by its own fold.',
    why: 'Depth runs from the outermost of the fold to the cut edge; nothing would lie back on the sheet. The fix writes the least.',
    example: plate('edge top { hem 2 open 2 down } // error: hem/shorter-than-its-fold'),
    cure: plate('edge top { hem 8 open 2 down }'),
    source: 'Plane geometry.',
  }),
  spoken('shape/tab-off-the-edge', 'error', {
    what: 'A tab does not lie on its edge, or runs into the next one.',
    why: 'A place is the middle of the tab, along the edge.',
    example: plate('edge top { tab 20 by 8 at 95 } // error: shape/tab-off-the-edge'),
    cure: plate('edge top { tab 20 by 8 at 85 }'),
  }),
  spoken('shape/tab-too-narrow', 'warning', {
    what: 'A tab is narrower than twice the thickness or 3.2 mm, or more than five times as long as wide.',
    why: 'Such tabs tear when they are cut and bend when the part is handled.',
    example: plate('edge top { tab 2 by 6 at 50 } // warning: shape/tab-too-narrow'),
    cure: plate('edge top { tab 4 by 6 at 50 }'),
    source: 'Sheet-metal design guideline (DRM Associates), from memory.',
  }),
  spoken('hole/through-misses', 'error', {
    what: 'A hole that is to go on through another face does not come out in the flat of that face.',
    why: 'It is carried square to its own face through the folded part. Where the other face lies at a slant, in a bend or elsewhere, no round hole can be marked out for it.',
    example: plate('edge top { flange 20 up  flange 15 up }', 'hole 5 on top.2 through to top at (50, 8) // error: hole/through-misses'),
    cure: plate('edge top { flange 20 up  flange 15 up }', 'hole 5 on top.2 through to base at (50, 8)'),
    source: 'Plane geometry.',
  }),
];
