/** Plane geometry of true lines and arcs: measuring, moving, meeting and shifting loops. It knows nothing of sheet metal and never rounds. */
export { boxesMeet, moveBox, radiusOf, startOf } from './arcs.js';
export { loopToLoop, moveToMove, pointToLoop } from './distances.js';
export { pointInLoop, selfMeeting } from './inside.js';
export {
  boundingBox,
  circleLoop,
  fromLowerLeft,
  loopLength,
  place,
  placeLoop,
  polygon,
  reversed,
  signedArea,
  tessellate,
} from './loops.js';
export { circlesMeet, lineMeetsCircle, lineOf, linesMeet, movesMeet } from './meetings.js';
export { movesShifted } from './offsets.js';
