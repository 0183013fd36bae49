/**
 * The part folded: where every face and bend stands in any state between flat and finished, how large the finished part is, what runs into what, and how its
 * corners close. The base lies still. Nothing here throws, prints, knows of machines, or changes what it is given.
 */
import type { Blank } from '../blank/types.js';
import { pipeToSpace, spaceToPipe } from '../shape/hinges.js';
import { type Frame, pointFrom, pointInto, type Vector } from '../shape/space.js';
import { foldPieces } from './state.js';
import type { FoldedState, Turned } from './types.js';
import { zoneCoordinates } from './zone.js';

export { dimensionsOf, type SectionDimension } from './dimensions.js';
export { glb } from './gltf.js';
export { meshOf, unplacedMesh } from './mesh.js';
export { movingPart, raisedLines } from './moving.js';
export { foldPart } from './part.js';
export { type CutPlane, type FoldSection, JOINT, sectionAt } from './section.js';
export { stl } from './stl.js';
export type * from './types.js';

/**
 * Every face and bend of the blank in its place.
 *
 * @param turned the share of its own turn that each bend is turned by: 0 flat, 1 finished (the default), a little over 1 over-bent
 */
export const foldAt = (blank: Blank, turned: Turned = () => 1): FoldedState => foldPieces(blank, turned).state;

/** Ways between a place on the flat sheet, (x, y) in blank coordinates and z its height over the mid plane, and space. */
export interface PointMaps {
  readonly fold: (p: Vector) => Vector;
  readonly unfold: (p: Vector) => Vector;
}

/**
 * The point maps of one face (`face:top.1`) or bend zone (`bend:top.1`) in a state; undefined for a feature that the blank does not have.
 * `unfold` undoes `fold` to a millionth of a micrometre.
 */
export const mapsOf = (blank: Blank, feature: string, turned: Turned = () => 1): PointMaps | undefined => {
  const { hung } = foldPieces(blank, turned);
  const id = feature.slice(feature.indexOf(':') + 1);
  if (feature.startsWith('face:')) {
    const frame = hung.frames.get(id);
    return frame === undefined ? undefined : faceMaps(frame);
  }
  const pipe = hung.pipes.get(id);
  if (pipe === undefined) return undefined;
  const on = zoneCoordinates(pipe.hinge);
  return {
    fold: (p) => {
      const { x, y } = on.into(p);
      return pipeToSpace(pipe, x, y, p.z);
    },
    unfold: (p) => {
      const { x, y, z } = spaceToPipe(pipe, p);
      return { ...on.outOf({ x, y }), z };
    },
  };
};

const faceMaps = (frame: Frame): PointMaps => ({ fold: ({ x, y, z }) => pointFrom(frame, x, y, z), unfold: (p) => pointInto(frame, p) });
