/**
 * The promise of the caches: after any run of edits the project answers as one does that sees the texts for the first time.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { memoryFiles } from '../server/files.js';
import { createProject, type Project } from '../server/project.js';
import { runs } from './runs.js';

const shop = `units inch
material mild_steel { gauge table steel  density 7850 kg/m3  tensile 330 MPa }
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  bend radius 1/16 k 0.42 }
brake bench_leaf { leaf  length 48  capacity 16 ga of mild_steel  least flange 3/8 }
let lap = 3/4
`;
const gate = `with "shop.planish"
units inch

let gate_width = 30 1/4
let gate_height = 11

/// Drop gate, one off.
panel gate {
  sheet crs_18
  outline rectangle gate_width by gate_height
  edge top { flange lap down }
  edge left, right { flange 5/8 down }
  hole 9/32 at (1, 1 1/2), (gate_width - 1, 1 1/2)
  slot 1/4 by 1 at (gate_width / 2, 9)
  check gate.blank.height <= 24 "must come out of an offcut"
}

section channel {
  sheet crs_18
  length gate.blank.width
  leg 1
  turn up 90
  leg 2
  turn up 90
  leg 1
}
`;
const lid = `with "gate.planish"
with "shop.planish"
units millimetre

panel lid {
  sheet crs_18
  outline rectangle gate_width by 200
  edge top, bottom { flange 12 up }
  hole 6 at (40, 40)
  note "as wide as the gate"
}
`;
const texts: Readonly<Record<string, string>> = { '/job/shop.planish': shop, '/job/gate.planish': gate, '/job/lid.planish': lid };
const paths = Object.keys(texts);

interface Edit {
  readonly path: string;
  readonly at: number;
  readonly drop: number;
  readonly put: string;
  /** The answer is begun and not waited for. */
  readonly abandoned: boolean;
}
const puts = [
  '',
  ' ',
  '\n',
  '1',
  '3/8',
  '.',
  '-',
  '{',
  '}',
  '(',
  ')',
  '"',
  'edge top { flange 1/8 up }\n',
  'hole 1/4 at (1, 1)\n',
  'panel gate {',
  'gate',
  'crs_18',
  'lap',
  'mm',
  '#',
  'é',
  '½',
  'units millimetre\n',
  'let lap = gate_width\n',
  'with "lid.planish"\n',
  '// ',
];
const edits: fc.Arbitrary<Edit> = fc.record({
  abandoned: fc.oneof(fc.constant(false), fc.constant(false), fc.boolean()),
  path: fc.constantFrom(...paths),
  at: fc.nat(700),
  drop: fc.oneof(fc.constant(0), fc.nat(3), fc.nat(60)),
  put: fc.oneof(fc.constantFrom(...puts), fc.constantFrom(...puts), fc.string({ maxLength: 4 })),
});

const applied = (text: string, { at, drop, put }: Omit<Edit, 'abandoned'>): string => {
  const start = at % (text.length + 1);
  return text.slice(0, start) + put + text.slice(start + drop);
};

const fresh = (now: Readonly<Record<string, string>>): Project => createProject({ files: memoryFiles(now), root: '/job' });

/** The way of the language server; it must come to the same as the way of the command line. */
const inSteps = (project: Project, path: string): unknown => {
  const steps = project.findingsInSteps(path);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
};
const inStepsOrAtOnce = (project: Project, path: string): unknown =>
  path === '/job/lid.planish' ? inSteps(project, path) : project.findings(path);

/** All that a person would see: what is said, and the blanks. */
const answers = (project: Project): unknown =>
  paths.map((path) => ({
    path,
    findings: inStepsOrAtOnce(project, path),
    blanks: project.parts(path).map(({ part, blank }) => ({ name: part.name, span: part.span, blank: blank.blank })),
  }));

const sameAfter = (run: readonly Edit[]): void => {
  const project = fresh(texts);
  answers(project);
  let now = texts;
  for (const { abandoned, ...edit } of run) {
    now = { ...now, [edit.path]: applied(now[edit.path] as string, edit) };
    project.setText(edit.path, now[edit.path] as string);
    if (abandoned) {
      // A newer edit comes before the answer to this one is done.
      const steps = project.findingsInSteps(edit.path);
      steps.next();
      steps.next();
    } else expect(answers(project)).toEqual(answers(fresh(now)));
  }
  expect(answers(project)).toEqual(answers(fresh(now)));
};

describe('random edits', () => {
  test('never throw, and give what a fresh project gives', { timeout: 120_000 }, () => {
    fc.assert(fc.property(fc.array(edits, { minLength: 1, maxLength: 6 }), sameAfter), {
      numRuns: runs(60),
    });
  });

  test('every text cut off at any place is answered', { timeout: 120_000 }, () => {
    const project = fresh(texts);
    for (let end = 0; end <= gate.length; end += 7) {
      project.setText('/job/gate.planish', gate.slice(0, end));
      expect(answers(project)).toEqual(answers(fresh({ ...texts, '/job/gate.planish': gate.slice(0, end) })));
    }
  });
});
