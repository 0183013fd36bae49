/** Plane geometry of true lines and arcs: measuring, moving, meeting and shifting loops. It knows nothing of sheet metal and never rounds. */
export { angleAbout, apart, boxesMeet, moveBox, moveLength, radiusOf, startOf, sweepOf, wrap } from './arcs.js';
export { loopToLoop, moveToMove, pointToLoop, pointToMove } from './distances.js';
export { pointInLoop, selfMeeting } from './inside.js';
export {
  boundingBox,
  circleLoop,
  fromLowerLeft,
  loopLength,
  movedBy,
  place,
  placeLoop,
  polygon,
  reversed,
  signedArea,
  tessellate,
} from './loops.js';
export { circlesMeet, lineMeetsCircle, lineOf, linesMeet, movesMeet } from './meetings.js';
export { arcShifted, lineShifted, movesShifted } from './offsets.js';
