import { describe, expect, test } from 'vitest';
import { memoryFiles } from '../server/files.js';
import { createProject, type Project, type ProjectOptions } from '../server/project.js';

const shop = `units inch
material mild_steel { gauge table steel  density 7850 kg/m3 }
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  bend radius 1/16 k 0.42 }
brake bench_leaf { leaf  length 48  capacity 16 ga of mild_steel  least flange 3/8 }
`;
const lid = `with "shop.planish"
units inch

panel lid {
  sheet crs_18
  outline rectangle 12 by 8
  edge top { flange 3/4 up }
}
`;
const projectOf = (texts: Readonly<Record<string, string>>, more: Partial<ProjectOptions> = {}): Project =>
  createProject({ files: memoryFiles(texts), root: '/job', ...more });
const rulesSaid = (project: Project, path: string): readonly string[] => project.findings(path).map(({ rule }) => rule);

describe('a part file and its shop', () => {
  test('give no findings and a blank worked out by hand', () => {
    const [result] = projectOf({ '/job/lid.planish': lid, '/job/shop.planish': shop }).parts('/job/lid.planish');
    // R 1.5875, T 1.2141 (18 ga, Manufacturers' Standard Gauge 0.0478 in), K 0.42, 90°:
    // allowance π/2 · (1.5875 + 0.42 · 1.21412) = 3.29462; deduction 2 · (1.5875 + 1.21412) − 3.29462 = 2.30862.
    // Height 8 in + 3/4 in − deduction = 222.25 − 2.30862 = 219.94138.
    expect(result?.blank.blank?.width).toBeCloseTo(304.8, 3);
    expect(result?.blank.blank?.height).toBeCloseTo(219.941, 2);
    expect(result?.findings).toEqual([]);
  });

  test('an open buffer counts before the file, and in every file that brings it', () => {
    const project = projectOf({ '/job/lid.planish': lid, '/job/shop.planish': shop });
    expect(rulesSaid(project, '/job/lid.planish')).toEqual([]);
    project.setText('/job/shop.planish', shop.replace('least flange 3/8', 'least flange 1'));
    expect(rulesSaid(project, '/job/lid.planish')).toEqual(['brake/flange-too-short']);
    expect(project.dependents('/job/shop.planish')).toEqual(['/job/lid.planish']);
    project.forget('/job/shop.planish');
    expect(rulesSaid(project, '/job/lid.planish')).toEqual([]);
  });

  test('a shop file made later is found then', () => {
    const project = projectOf({ '/job/lid.planish': lid });
    expect(rulesSaid(project, '/job/lid.planish')).not.toEqual([]);
    project.setText('/job/shop.planish', shop);
    expect(rulesSaid(project, '/job/lid.planish')).toEqual([]);
  });

  test('a file changed on disk is read again when told so', () => {
    const texts = new Map([
      ['/job/lid.planish', lid],
      ['/job/shop.planish', shop],
    ]);
    const project = createProject({ files: memoryFiles(texts), root: '/job' });
    expect(rulesSaid(project, '/job/lid.planish')).toEqual([]);
    texts.set('/job/lid.planish', lid.replace('3/4', '1/8'));
    expect(rulesSaid(project, '/job/lid.planish')).toEqual([]);
    project.invalidate('/job/lid.planish');
    expect(rulesSaid(project, '/job/lid.planish')).toEqual(['brake/flange-too-short']);
  });

  test('the shop file of the settings serves files that bring none', () => {
    const alone = lid.replace('with "shop.planish"\n', '');
    const texts = { '/job/lid.planish': alone, '/job/shop.planish': shop };
    expect(rulesSaid(projectOf(texts), '/job/lid.planish')).not.toEqual([]);
    expect(rulesSaid(projectOf(texts, { shopFile: '/job/shop.planish' }), '/job/lid.planish')).toEqual([]);
  });

  test('a file that is not there is an empty one', () => {
    const project = projectOf({});
    expect(project.findings('/job/none.planish')).toEqual([]);
    expect(project.parts('/job/none.planish')).toEqual([]);
  });
});

describe('findings', () => {
  const short = lid.replace('3/4', '1/8');

  test('stand at absolute places, their fixes too', () => {
    const [finding] = projectOf({ '/job/lid.planish': short, '/job/shop.planish': shop }).findings('/job/lid.planish');
    const at = short.indexOf('1/8');
    expect(finding?.span).toEqual({ start: at, end: at + 3 });
    expect(finding?.fixes[0]?.edits).toEqual([{ span: { start: at, end: at + 3 }, text: '3/8' }]);
  });

  test('move with the text above them', () => {
    const project = projectOf({ '/job/lid.planish': short, '/job/shop.planish': shop });
    project.findings('/job/lid.planish');
    const moved = short.replace('units inch\n', 'units inch\n// a line more\n\n');
    project.setText('/job/lid.planish', moved);
    const [finding] = project.findings('/job/lid.planish');
    expect(moved.slice(finding?.span.start, finding?.span.end)).toBe('1/8');
  });

  test('take their severity from the settings, or are silenced by them', () => {
    const texts = { '/job/lid.planish': short, '/job/shop.planish': shop };
    const milder = projectOf(texts, { severities: { 'brake/flange-too-short': 'hint' } });
    expect(milder.findings('/job/lid.planish').map(({ severity }) => severity)).toEqual(['hint']);
    expect(rulesSaid(projectOf(texts, { severities: { 'brake/flange-too-short': 'off' } }), '/job/lid.planish')).toEqual([]);
  });

  test('come in steps, and stop for a newer edit', () => {
    const two = `${short}\n${short.slice(short.indexOf('panel')).replace('lid', 'floor')}`;
    const project = projectOf({ '/job/lid.planish': two, '/job/shop.planish': shop });
    const steps = project.findingsInSteps('/job/lid.planish');
    expect(steps.next().done).toBe(false);
    project.setText('/job/lid.planish', short);
    let last = steps.next();
    while (last.done !== true) last = steps.next();
    expect(last.value).toBeUndefined();
    expect(rulesSaid(project, '/job/lid.planish')).toEqual(['brake/flange-too-short']);
  });
});

describe('what an edit costs', () => {
  const twenty = Array.from({ length: 20 }, (_, index) => lid.slice(lid.indexOf('panel')).replace('lid', `lid_${index}`)).join('\n');
  const text = `with "shop.planish"\nunits inch\n${twenty}`;

  test('parts below an edit keep the very blank they had', () => {
    const project = projectOf({ '/job/lid.planish': text, '/job/shop.planish': shop });
    const before = project.parts('/job/lid.planish');
    project.setText('/job/lid.planish', text.replace('12 by 8', '12 1/2 by 8'));
    const after = project.parts('/job/lid.planish');
    expect(after.map(({ blank }, index) => blank === before[index]?.blank)).toEqual([false, ...Array.from({ length: 19 }, () => true)]);
  });
});

describe('the last good picture', () => {
  test('stays while the part cannot be laid out, and goes when it can', () => {
    const project = projectOf({ '/job/lid.planish': lid, '/job/shop.planish': shop });
    const good = project.parts('/job/lid.planish')[0]?.blank.blank;
    expect(good).toBeDefined();
    project.setText('/job/lid.planish', lid.replace('12 by 8', '12 by'));
    const [broken] = project.parts('/job/lid.planish');
    expect(broken?.blank.blank).toBeUndefined();
    expect(broken?.lastGood).toEqual(good);
    project.setText('/job/lid.planish', lid.replace('12 by 8', '12 by 9'));
    const [mended] = project.parts('/job/lid.planish');
    expect(mended?.blank.blank).toBeDefined();
    expect(mended?.lastGood).toBeUndefined();
  });
});

describe('measured properties', () => {
  test('are read across parts and files', () => {
    const liner = `with "lid.planish"
with "shop.planish"
units inch

panel liner {
  sheet crs_18
  outline rectangle lid.blank.width by lid.blank.height
  check liner.blank.width = lid.blank.width
  check liner.blank.width < 11 "must be narrow"
}
`;
    const project = projectOf({ '/job/lid.planish': lid, '/job/shop.planish': shop, '/job/liner.planish': liner });
    const said = project.findings('/job/liner.planish');
    expect(said).toHaveLength(1);
    expect(said[0]?.message).toContain('must be narrow');
    const blank = project.parts('/job/liner.planish')[0]?.blank.blank;
    expect(blank?.width).toBeCloseTo(304.8, 3);
    // A change in the one file changes what is measured in the other.
    project.setText('/job/lid.planish', lid.replace('12 by 8', '10 by 8'));
    expect(project.findings('/job/liner.planish')).toEqual([]);
  });

  test('that lead round in a ring are one error', () => {
    const ring = `with "shop.planish"
units inch
panel a {
  sheet crs_18
  outline rectangle b.blank.width by 4
}
panel b {
  sheet crs_18
  outline rectangle a.blank.width by 4
}
`;
    const project = projectOf({ '/job/ring.planish': ring, '/job/shop.planish': shop });
    expect(rulesSaid(project, '/job/ring.planish')).toEqual(['name/ring']);
  });
});
