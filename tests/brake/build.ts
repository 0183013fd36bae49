/** Parts on brakes in memory. All sizes invented. */
import { layOut } from '../../server/blank/index.js';
import type { Blank } from '../../server/blank/types.js';
import type { Panel, Section } from '../../server/model/part.js';
import { modelOf } from '../model/build.js';

export const metal = `units millimetre
material steel { density 7850 kg/m3  yield 210 MPa  tensile 330 MPa  modulus 205 GPa }
sheet s { material steel  thickness 1  bend radius 1 k 0.42 }
`;
/** A bench brake: nose ground back to 45°, a bed as deep as the machine, an apron 50 high. */
export const sections = `nose (0, 0), (-60, 60), (-120, 60), (-120, 30), (-30, 0)  bed (0, 0), (-150, 0), (-150, -80), (-20, -80)  apron (0, 0), (40, 0), (40, -12), (8, -60), (0, -60)`;
export const leafBrake = `brake bench { leaf  length 1000  capacity 1.5 of steel  least flange 8  greatest turn 140  jaw 60  ${sections} }
`;

export interface Made {
  readonly part: Panel | Section;
  readonly blank: Blank;
}
export const made = (text: string): Made => {
  const model = modelOf(text);
  const part = model.part('a');
  if (part?.kind !== 'panel' && part?.kind !== 'section') throw new Error(`no part a: ${JSON.stringify(model.findings)}`);
  const { blank, findings } = layOut(part);
  if (blank === undefined) throw new Error(`no blank: ${JSON.stringify([...model.findings, ...part.findings, ...findings])}`);
  return { part, blank };
};
