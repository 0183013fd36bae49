/** Parts on brakes in memory. All sizes invented. */

import { layOut } from '../../server/blank/index.js';
import type { Blank } from '../../server/blank/types.js';
import { type Plan, type Planned, planBending } from '../../server/brake/index.js';
import type { Panel, Section } from '../../server/model/part.js';
import { modelOf } from '../model/build.js';

export const metal = `units millimetre
material steel { density 7850 kg/m3  yield 210 MPa  tensile 330 MPa  modulus 205 GPa }
sheet s { material steel  thickness 1  bend radius 1 k 0.42 }
`;
/** A bench brake: a slim nose sloped back at 45° below, a bed as deep as the machine, an apron 12 thick. */
export const slim = `nose (0, 0), (-15, 15), (-20, 100), (-120, 150), (-125, 150), (-30, 75), (-30, 0)
  bed (0, 0), (-150, 0), (-150, -80), (-20, -80)
  apron (0, 0), (12, 0), (12, -60), (0, -60)
`;
export const rated = 'length 1000  capacity 1.5 of steel  least flange 8  greatest turn 140  jaw 60';
export const leafBrake = `brake bench { leaf  ${rated}
  ${slim}}
`;
/** The same with its nose in fingers. */
export const boxBrake = `brake bench { fingers 25, 50, 75, 100, 150, 200, 300  ${rated}  depth 90
  ${slim}}
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

/** A strip from `leg 40 / up 90 / leg 30`. */
export const section = (steps: string, length = 200): string => `section a { sheet s  length ${length}
  ${steps
    .split('/')
    .map((step) => (/^\s*leg/.test(step) ? step : ` turn${step}`).trim())
    .join('\n  ')}
}`;
export const planned = (text: string): Planned => {
  const { part, blank } = made(text);
  const answer = planBending(part, blank);
  if (answer === undefined) throw new Error('nothing to plan');
  return answer;
};
export const planOf = (text: string): Plan => planned(text).plan;
/** `up/parent` for each step: face and clamped side. */
export const ways = (plan: Plan): readonly string[] =>
  plan.steps.map((step) => `${step.bends.join('+')} ${step.faceUp === true ? 'up' : 'down'} ${step.clamped?.face}`);
