import { deepestFix, deepestWords } from './bead-deepest.js';
import { beadFeature, byStatement, onAPanel, placeWords, rolled } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

export const beadOutOfReach: Rule = {
  name: 'bead/out-of-reach',
  severity: 'error',
  what: 'No roller of the shop reaches all of a bead: at some place the sheet between the dies and the frame is wider than the throat, from whichever side the frame stands.',
  why: 'The sheet comes up against the frame before the bead is where it should be. The fix writes the number of the deepest place that fits.',
  example: onAPanel('bead rib { die half_round_3_8  up  line from (8, 12) to (28, 12) } // error: bead/out-of-reach'),
  cure: onAPanel('bead rib { die half_round_3_8  up  line from (8, 8) to (28, 8) }'),
  source: 'Plane geometry: the farthest sheet within the width of the frame, square to the track.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    return byStatement(ready.beads.beads).flatMap((copies) => {
      const blocked = copies.flatMap((bead) => {
        const reach = bead.reaches[0];
        return reach === undefined || bead.reaches.some(({ fits }) => fits) ? [] : [{ bead, reach }];
      });
      const worst = [...blocked].sort((a, b) => b.reach.needed - b.reach.throat - (a.reach.needed - a.reach.throat))[0];
      if (worst === undefined) return nothingSaid;
      const { bead, reach } = worst;
      const [needs, has] = subject.sayBoth(reach.needed, reach.throat);
      const which =
        bead.reaches.length > 1 ? `no roller here reaches it, not even ${reach.roller.name}` : `${reach.roller.name} does not reach it`;
      const moved = deepestWords(ready.part, bead, reach, subject);
      const message = `${which}: near ${placeWords(subject, ready, reach.worst.at)} ${bead.id} has ${needs} of sheet between the dies and the frame, whichever way it is fed, and the throat is ${has}${moved === undefined ? '; put it nearer to an edge, roll it before the sheet is cut wide, or press it another way' : `: ${moved}`}`;
      const fix = deepestFix(ready.part, bead, reach, blocked, subject);
      return [
        speak(subject, beadOutOfReach, bead.pathSpan, message, {
          features: blocked.map((each) => beadFeature(each.bead.id)),
          fixes: fix === undefined ? [] : [fix],
        }),
      ];
    });
  },
};

const wide = (y: string, mark: string): string =>
  onAPanel(
    `repeat 3 every 2 along y { bead side { die half_round_3_8  up  line from (0, 1 1/2) to (36, 1 1/2)  ends run off } }`,
    `bead rib { die half_round_3_8  up  line from (0, ${y}) to (36, ${y})  ends run off }${mark}`,
  );

export const beadReachedOnceRolled: Rule = {
  name: 'bead/reached-once-rolled',
  severity: 'warning',
  what: 'The roller reaches a bead on the finished blank, but not while the sheet still has what the beads draw in and what tipped edges take.',
  why: 'The sheet is cut larger than it ends up. Roll such a bead last, when the others have drawn the sheet in, or put it a little nearer to an edge: the fix writes the number that serves from the start.',
  example: wide('8', ' // warning: bead/reached-once-rolled'),
  cure: wide('7 3/4', ''),
  source: 'Plane geometry; how much draws in is the trial’s or common practice.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    return byStatement(ready.beads.beads).flatMap((copies) => {
      const short = copies.flatMap((bead) => {
        const reach =
          bead.reaches.find(({ fits, beforeRolling }) => fits && beforeRolling?.fits !== false) === undefined ? bead.reaches[0] : undefined;
        return reach?.fits === true && reach.beforeRolling !== undefined ? [{ bead, reach, before: reach.beforeRolling.needed }] : [];
      });
      const worst = [...short].sort((a, b) => b.before - b.reach.throat - (a.before - a.reach.throat))[0];
      if (worst === undefined) return nothingSaid;
      const { bead, reach, before } = worst;
      const [asks, has] = subject.sayBoth(before, reach.throat);
      const moved = deepestWords(ready.part, bead, reach, subject);
      const message = `${reach.roller.name} reaches ${bead.id} once the sheet is drawn in, ${subject.say(reach.needed)}, but the sheet as cut has ${asks} between the dies and the frame, and the throat is ${has}: roll it after the others${moved === undefined ? '' : `; ${moved.replace('it fits', 'it fits from the start')}`}`;
      const fix = deepestFix(ready.part, bead, reach, short, subject);
      return [
        speak(subject, beadReachedOnceRolled, bead.pathSpan, message, {
          features: short.map((each) => beadFeature(each.bead.id)),
          fixes: fix === undefined ? [] : [fix],
        }),
      ];
    });
  },
};
