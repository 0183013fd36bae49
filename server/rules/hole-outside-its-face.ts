import { onTheBench } from './bench.js';
import type { Rule } from './rule.js';
import { cutFeature, laidOut, nothingSaid, speak } from './subject.js';

export const holeOutsideItsFace: Rule = {
  name: 'hole/outside-its-face',
  severity: 'error',
  what: 'A hole, slot or cut-out lies outside the face it is placed on, or runs over that face’s cut edge.',
  why: 'Places are measured in finished sizes: on the panel itself from its lower left corner, on a flange along the edge and out from the outside of its parent. A hole outside its face is nearly always a slip in one of the two numbers. For an open notch draw it into the outline.',
  example: onTheBench(`panel plate {
  sheet crs_18
  outline rectangle 6 by 4
  hole 1/4 at (3, 14) // error: hole/outside-its-face
}`),
  cure: onTheBench(`panel plate {
  sheet crs_18
  outline rectangle 6 by 4
  hole 1/4 at (3, 1.4)
}`),
  source: 'Plane geometry.',
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready === undefined || subject.cuts.length === 0) return nothingSaid;
    return subject.cuts.flatMap(({ cut, inside, crosses }) => {
      if (inside || crosses !== undefined) return nothingSaid;
      const source = subject.written(cut.id);
      const where = source === undefined ? '' : ` at (${subject.say(source.at.x)}, ${subject.say(source.at.y)})`;
      const face = cut.face === 'base' ? 'the panel' : `the face ${cut.face}`;
      const message = `this cut${where} does not lie wholly on ${face}: move it in, or draw an open notch into the outline`;
      return [speak(subject, holeOutsideItsFace, source?.atSpan ?? cut.span, message, { features: [cutFeature(cut)] })];
    });
  },
};
