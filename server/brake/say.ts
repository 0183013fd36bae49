/** A plan in words, in the unit of the part's file. Plain sentences for the terminal, the editor and paper; nothing here draws or prints. */
import type { BendStep, BlockedBend, Change, ChosenFingers, Cost, Obstacle, Tool } from './types.js';

/** How lengths are said: with the unit. */
export interface SayWords {
  readonly say: (mm: number) => string;
  readonly sayBoth: (a: number, b: number) => readonly [string, string];
}

export const sayAngle = (turn: number): string => `${Math.round((turn * 1800) / Math.PI) / 10}°`;

/** `top.1` from `face:top.1`, with what it is. */
const sayFeature = (feature: string): string =>
  feature.startsWith('bend:') ? `the bend ${feature.slice(5)}` : feature.replace(/^face:/, '');
const TOOLS: Readonly<Record<Tool, string>> = { nose: 'the nose', beam: 'the beam above the fingers', bed: 'the bed', apron: 'the apron' };

export const sayObstacle = (one: Obstacle, { say, sayBoth }: SayWords): string => {
  switch (one.kind) {
    case 'length':
      return `the bend is ${sayBoth(one.wants, one.has)[0]} long, the brake ${sayBoth(one.wants, one.has)[1]}; a brake at least ${say(one.wants)} long could take it`;
    case 'thickness': {
      const practice =
        one.stainlessPractice === undefined ? '' : `; for stainless many shops allow no more than ${say(one.stainlessPractice)}`;
      return `the sheet is ${sayBoth(one.has, one.takes)[0]} thick, the brake takes ${sayBoth(one.has, one.takes)[1]} of this metal over this length${practice}`;
    }
    case 'turn':
      return `the leaf would have to turn ${sayAngle(one.wants)}, it stops at ${sayAngle(one.greatest)}`;
    case 'grip':
      return one.where === 'leaf'
        ? `the leaf needs ${sayBoth(one.least, one.reach)[0]} to bear on, there is ${sayBoth(one.least, one.reach)[1]}`
        : `the clamp needs ${sayBoth(one.least, one.reach)[0]} to hold, there is ${sayBoth(one.least, one.reach)[1]}`;
    case 'jaw':
      return `what lies behind the nose is ${sayBoth(one.height, one.opening)[0]} high, the jaw opens ${sayBoth(one.height, one.opening)[1]}`;
    case 'touch': {
      if (one.leafAlone === true)
        return `${TOOLS[one.tool]} strikes ${sayFeature(one.feature)} when the leaf goes back, at ${sayAngle(one.at)}, by ${say(one.depth)}`;
      const when = one.from < 1e-6 ? 'as soon as it lies in the brake' : `once the leaf has turned ${sayAngle(one.from)}`;
      const how = Math.abs(one.at - one.from) < 1e-3 ? `by ${say(one.depth)}` : `by ${say(one.depth)} at ${sayAngle(one.at)}`;
      return `${sayFeature(one.feature)} strikes ${TOOLS[one.tool]} ${when}, ${how}`;
    }
    case 'beside':
      return `${sayFeature(one.feature)} stands beside the bend where ${TOOLS[one.tool]} goes on: there is ${sayBoth(one.clear, one.needs)[0]} of room, the brake is ${Number.isFinite(one.needs) ? sayBoth(one.clear, one.needs)[1] : 'longer'}${one.tool === 'nose' ? '; it wants fingers' : ''}`;
    case 'fingers':
      return one.best === 0
        ? `no finger fits in the ${say(one.room)} between what stands beside the bend`
        : `the fingers that fit in ${say(one.room)} make ${say(one.best)}; ${say(one.gap)} of the bend would lie bare`;
    case 'depth':
      return `${sayFeature(one.feature)} stands ${sayBoth(one.height, one.depth)[0]} high beside the fingers, they are ${sayBoth(one.height, one.depth)[1]} deep`;
    case 'itself':
      return `${sayFeature(one.a)} strikes ${sayFeature(one.b)} of the part itself once the leaf has turned ${sayAngle(one.from)}`;
  }
};

export const sayChange = (change: Change, { say, sayBoth }: SayWords): string => {
  switch (change.kind) {
    case 'flange':
    case 'leg': {
      const [to, from] = sayBoth(change.to, change.from);
      return `make ${change.id} ${to} instead of ${from}`;
    }
    case 'hem': {
      const [to, from] = sayBoth(change.to, change.from);
      return `make the hem ${change.id} ${to} deep instead of ${from}`;
    }
    case 'outline':
      return `make the ${change.axis === 'x' ? 'width' : 'height'} of the outline ${say(Math.abs(change.by))} ${change.by > 0 ? 'more' : 'less'}`;
    case 'corner': {
      const which = change.corners.includes('all')
        ? 'the corners'
        : `the ${change.corners.length === 1 ? 'corner' : 'corners'} ${change.corners.join(', ')}`;
      return change.to === 'open' ? `leave ${which} open` : `mitre ${which} with a gap of ${say(change.gap)}`;
    }
    case 'fingers':
      return 'a brake of this size whose nose is in fingers';
    case 'brake':
      return change.property === 'greatest turn'
        ? `a brake whose leaf turns ${sayAngle(change.to)}`
        : `a brake with a ${change.property} of ${sayBoth(change.to, change.from)[0]} or more`;
  }
};

const sayFingers = (fingers: ChosenFingers, { say }: SayWords): string => {
  const gap = fingers.gap > 0.05 ? `, ${say(fingers.gap)} of gaps shared out` : '';
  return `fingers ${fingers.widths.map((width) => say(width)).join(' + ')}${gap}`;
};

/** One step at the brake, in its parts. */
export interface StepWords {
  /** How the part is turned and put in, in order. */
  readonly handling: readonly string[];
  /** What lies under the nose, and where its line is. */
  readonly held: string;
  /** How far to set the leaf. */
  readonly set: string;
  readonly fingers: string | undefined;
  /** That no way in was found. */
  readonly into: string | undefined;
  /** How it is taken out, where it does not just slide out. */
  readonly out: string | undefined;
}

const times = (count: number): string => (count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`);
/** How often the part is moved round between its bends: `turned over once, turned on the bed twice`. */
export const sayHandling = ({ turnOvers, rotations }: Cost): string => {
  if (turnOvers === 0 && rotations === 0) return 'neither turned over nor turned on the bed';
  const [over, bed] = [`turned over ${times(turnOvers)}`, `turned on the bed ${times(rotations)}`];
  return turnOvers === 0 ? `${bed}, not turned over` : rotations === 0 ? `${over}, not turned on the bed` : `${over}, ${bed}`;
};

const noWayWords = (which: string, step: BendStep): string =>
  `no way ${which} was found by shifting and tilting it: slide it along the brake${step.fingers === undefined ? '' : ', or take the fingers out'}, or try it in card first`;

const outOf = (step: BendStep): string | undefined => {
  if (step.noWay === 'out') return noWayWords('out past the nose once it is bent', step);
  if (step.outBack && !step.fromBack) return `take it out to the back${step.tiltOut ? ', tilted' : ''}`;
  return step.tiltOut && !step.tiltIn ? 'tilt it to take it out' : undefined;
};

/** @returns undefined for handwork */
export const stepWords = (step: BendStep, words: SayWords): StepWords | undefined => {
  const { say } = words;
  if (step.make === 'hand') return undefined;
  const handling = [
    ...(step.turnedOver ? ['turn it over'] : []),
    ...(step.turnedEndForEnd ? ['turn it end for end'] : []),
    ...(!step.turnedEndForEnd && Math.abs(step.rotated) > 1e-6 ? [`turn it ${sayAngle(Math.abs(step.rotated))} on the bed`] : []),
    ...(step.tiltIn && step.noWay !== 'in' ? ['tilt the standing wall in under the nose'] : []),
    ...(step.fromBack && step.noWay !== 'in' ? ['put it in from the back'] : []),
    ...(step.hangsOff === undefined
      ? []
      : [step.hangsOff === 'both' ? 'let it hang off both ends of the brake' : `let it hang off the ${step.hangsOff} end of the brake`]),
  ];
  const held = `${step.clamped?.face} under the nose, face ${step.faceUp ? 'up' : 'down'}, the line ${say(step.swings)} from the free edge`;
  const set =
    step.setBy === 'not known' || step.flatten || Math.abs(step.setAngle - step.turn) < 1e-4
      ? sayAngle(step.setAngle)
      : `${sayAngle(step.setAngle)} for ${sayAngle(step.turn)}${step.setBy === 'trial' ? ` (trial ${step.trial})` : ''}`;
  const part = step.toShare < 1 ? ', part-way: it is finished later' : step.fromShare > 0 ? ', finishing it' : '';
  return {
    handling,
    into: step.noWay === 'in' ? noWayWords('in past the nose', step) : undefined,
    held,
    set: `set ${set}${part}${step.flatten ? ', then press it down' : ''}`,
    fingers: step.fingers === undefined ? undefined : sayFingers(step.fingers, words),
    out: outOf(step),
  };
};

/** What to do for one step, in short sentences. */
export const sayStep = (step: BendStep, words: SayWords): readonly string[] => {
  const said = stepWords(step, words);
  if (said === undefined) return [`by hand: ${step.bends.join(', ')}`];
  return [...said.handling, said.into ?? [], said.held, said.set, said.fingers ?? [], said.out ?? []].flat();
};

/** The bend that stops the part, and why: the reason against the way of holding it with the least against it. */
export const sayBlocked = (blocked: BlockedBend, words: SayWords): string => {
  const state = blocked.done.length === 0 ? 'with nothing bent yet' : `with ${blocked.done.join(', ')} bent`;
  return `${blocked.bend}, ${state}: ${sayObstacle(blocked.main, words)}`;
};
