/** Bending through the façade: the text of a part and its shop in, what is said of it out. 1 mm sheet over 1 mm inside radius; machines and parts invented. */
import { describe, expect, test } from 'vitest';
import { memoryFiles } from '../server/files.js';
import { lineIndex } from '../server/lines.js';
import { measureJson } from '../server/measure/index.js';
import type { Finding } from '../server/model/finding.js';
import { createProject, type Project } from '../server/project.js';
import { boxBrake, leafBrake, metal, section } from './brake/build.js';

const path = '/job/a.planish';
const projectOf = (text: string): Project => createProject({ files: memoryFiles({ [path]: text }), root: '/job' });
/** Each finding with the words it stands under. */
const saying = (text: string, found: readonly Finding[] = projectOf(text).findingsWithPlans(path)): readonly string[] =>
  found.map(({ span, severity, rule, message }) => `${text.slice(span.start, span.end)} | ${severity} ${rule}: ${message}`);
const planOf = (text: string) => {
  const project = projectOf(text);
  const [result] = project.parts(path);
  return result === undefined ? undefined : project.planned(path, result)?.plan;
};
const mended = (text: string): string => {
  const edits = [...(projectOf(text).findingsWithPlans(path)[0]?.fixes[0]?.edits ?? [])].sort((a, b) => b.span.start - a.span.start);
  return edits.reduce((now, { span, text: put }) => now.slice(0, span.start) + put + now.slice(span.end), text);
};

const tray = (name = 'a', size = '200 by 150'): string => `panel ${name} {
  sheet s
  outline rectangle ${size}
  edge top, bottom, left, right { flange 25 up }
}
`;
const leaf = (part: string): string => `${metal}${leafBrake}${part}`;
const box = (part: string): string => `${metal}${boxBrake}${part}`;
/** A closed C: the last bend would have to swing its web over a nose that stands 75 high inside it. */
const closed = section('leg 60 / up 90 / leg 22 / up 90 / leg 60');
const keeper = `panel a {
  sheet s
  outline rectangle 60 by 50
  edge top {
    flange 30 up as riser
    flange 40 up as bridge
  }
}
`;

describe('what can be bent, and in which order', () => {
  test('a hat that goes in one order only', () => {
    const machine = leafBrake
      .replace(/nose .*\n/, 'nose (0, 0), (-60, 60), (-120, 60), (-120, 30), (-30, 0)\n')
      .replace(/apron .*\n/, 'apron (0, 0), (12, 0), (12, -40), (40, -40), (40, -60), (0, -60)\n');
    const hat = `${metal}${machine}${section('leg 29 / down 90 / leg 21 / up 90 / leg 32 / up 90 / leg 71 / down 90 / leg 33')}`;
    expect(saying(hat)).toEqual([]);
    // Near brim, near wall, far wall; the far brim, which would lie over the nose, last.
    expect(planOf(hat)?.steps.flatMap(({ bends }) => bends)).toEqual(['turn.1', 'turn.2', 'turn.3', 'turn.4']);
  });
  test('a box whose last wall wants the fingers: told once for the block, at its words, with the room there is', () => {
    expect(saying(leaf(tray()))).toEqual([
      expect.stringMatching(
        /^flange 25 up \| error brake\/wants-fingers: .*\.1 can’t be bent on bench, whatever the order: with .* bent, .* stands beside the bend where the nose goes on: there is .* mm of room, the brake is 1000 mm; it wants fingers\. Tried, and it would go: a brake of this size whose nose is in fingers\.$/,
      ),
    ]);
    expect(saying(box(tray()))).toEqual([]);
    expect(planOf(box(tray()))?.steps.at(-1)?.fingers?.widths.length).toBeGreaterThan(0);
  });
  test('a return flange that strikes the nose in every order; the length that is offered frees it', () => {
    const text = leaf(keeper);
    const project = projectOf(text);
    const [finding, ...others] = project.findingsWithPlans(path);
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ rule: 'brake/strikes', severity: 'error' });
    expect(finding?.message).toMatch(/strikes the nose once the leaf has turned .*° by|strikes the nose once the leaf has turned .*, by/);
    // The other bend that might have come last is told beside it, at its own words.
    expect(finding?.related?.map(({ span }) => text.slice(span.start, span.end))).toEqual([expect.stringMatching(/^flange (30|40) up as/)]);
    const after = mended(text);
    expect(after).not.toBe(text);
    expect(saying(after)).toEqual([]);
  });
  test('a length that gives others theirs too is not changed for one of them', () => {
    const [finding] = projectOf(leaf(closed)).findingsWithPlans(path);
    expect(finding?.rule).toBe('brake/strikes');
    // Each leg stands by itself in the text, so what is offered can be put in.
    expect(finding?.fixes.length).toBeGreaterThan(0);
    const both = `panel a { sheet s  outline rectangle 60 by 22
  edge top, bottom { flange 60 up }
}
`;
    const [shared] = projectOf(leaf(both)).findingsWithPlans(path);
    expect(shared?.rule).toBe('brake/strikes');
    expect(shared?.message).toContain('Tried, and it would go: make');
    for (const { title } of shared?.fixes ?? []) expect(title).toMatch(/^Make (top|bottom)\.1, (top|bottom)\.1 /);
  });
  test('a Z is turned over once; too narrow a web for the apron is told', () => {
    expect(saying(leaf(section('leg 40 / up 90 / leg 30 / down 90 / leg 40')))).toEqual([]);
    expect(planOf(leaf(section('leg 40 / up 90 / leg 30 / down 90 / leg 40')))?.cost).toMatchObject({ turnOvers: 1 });
    expect(saying(leaf(section('leg 40 / up 90 / leg 11 / down 90 / leg 40')))).toEqual([
      expect.stringMatching(/\| error brake\/strikes: .* strikes the apron .*Tried, and it would go: make leg\.2 /),
    ]);
  });
  test('a deep channel too narrow for the apron', () => {
    const deep = section('leg 12 / down 90 / leg 40 / up 90 / leg 45 / up 90 / leg 40 / down 90 / leg 12');
    expect(saying(leaf(deep))).toEqual([]);
    const thick = leafBrake.replace('apron (0, 0), (12, 0), (12, -60)', 'apron (0, 0), (45, 0), (45, -60)');
    expect(saying(`${metal}${thick}${deep}`)).toEqual([expect.stringMatching(/error brake\/strikes: .* strikes the apron/)]);
  });
  test('a part too long for the brake says the length needed, once', () => {
    const long = leaf(section('leg 40 / up 90 / leg 30', 1200));
    expect(saying(long)).toEqual([
      'turn up 90 | error brake/bend-too-long: this brake is 1000 mm long; the bend turn.1 is 1200 mm and wants a brake at least that long: part it with a seam, or have it bent elsewhere',
    ]);
    // The plan says the same, and has tried it.
    expect(planOf(long)?.suggestions).toEqual([{ kind: 'brake', property: 'length', from: 1000, to: 1200 }]);
  });
  test('what each bend finds on one brake or another, and the whole part on none', () => {
    // The long bend goes on the long brake, which takes no flange as short as the other; that one goes on the short brake only.
    const two = `brake long { leaf  length 1500  least flange 20 }\nbrake short { leaf  length 1000  least flange 5 }\n`;
    const part = `panel a { sheet s  outline rectangle 1200 by 100
  edge top { flange 30 up }
  edge left { flange 8 up }
}
`;
    expect(saying(`${metal}${two}${part}`)).toEqual([
      expect.stringMatching(/error brake\/(bend-too-long|too-little-to-hold): .* can’t be bent on/),
    ]);
  });
  test('nothing is said without a brake, or of what its sections are not written for', () => {
    expect(saying(`${metal}${keeper}`)).toEqual([]);
    expect(saying(`${metal}brake bench { leaf  length 1000 }\n${keeper}`)).toEqual([]);
  });
});

describe('when it is said', () => {
  test('after everything else: the first answers don’t wait for a plan', () => {
    const text = leaf(keeper);
    const project = projectOf(text);
    expect(project.findings(path)).toEqual([]);
    expect(project.findingsSoFar(path)).toEqual([]);
    const [result] = project.parts(path);
    if (result === undefined) throw new Error('no part');
    expect(project.bending(result).state).toBe('not yet');
    const steps = project.planInSteps(path);
    let pauses = 0;
    while (steps.next().done !== true) pauses++;
    expect(pauses).toBeGreaterThan(20);
    expect(project.bending(result).state).toBe('planned');
    expect(project.findingsSoFar(path).map(({ rule }) => rule)).toEqual(['brake/strikes']);
    expect(project.findingsSoFar(path)).toBe(project.findingsSoFar(path));
    expect(project.findings(path)).toEqual([]);
  });
  test('a newer edit breaks it off; the plan of a part that did not change is kept', () => {
    const text = box(`${tray('a', '120 by 100')}${tray('b')}`);
    const project = projectOf(text);
    const steps = project.planInSteps(path, 'b');
    for (let i = 0; i < 5; i++) expect(steps.next().done).toBe(false);
    project.setText(path, `// moved\n${text.replace('120 by 100', '121 by 100')}`);
    expect(steps.next()).toEqual({ done: true, value: undefined });
    expect(project.findingsWithPlans(path)).toEqual([]);
    const kept = project.parts(path).map((result) => project.planned(path, result));
    project.setText(path, text.replace('120 by 100', '122 by 100'));
    const [a, b] = project.parts(path);
    if (a === undefined || b === undefined) throw new Error('no parts');
    expect(project.bending(a).state).toBe('not yet');
    expect(project.planned(path, b)).toBe(kept[1]);
  });
  test('a change of the shop is a new plan', () => {
    const project = projectOf(leaf(tray()));
    expect(project.findingsWithPlans(path).map(({ rule }) => rule)).toEqual(['brake/wants-fingers']);
    project.setText(path, box(tray()));
    expect(project.findingsWithPlans(path)).toEqual([]);
  });
});

describe('what reads a plan', () => {
  const checks = (text: string): readonly string[] =>
    projectOf(text)
      .findingsWithPlans(path)
      .map(({ rule, message }) => `${rule}: ${message}`);
  const z = section('leg 40 / up 90 / leg 30 / down 90 / leg 40');
  test('checks, in the part and outside it; undecided until the plan is made, without a word of it', () => {
    const text = leaf(
      `${z.replace(/\}$/, '  check a.bending.possible\n  check a.bending.turn_overs = 0\n}')}\ncheck a.bending.steps < 2\n`,
    );
    const project = projectOf(text);
    expect(project.findingsSoFar(path)).toEqual([]);
    const failed = [
      'check/failed: This doesn’t hold: a.bending.turn_overs = 0 (1 against 0).',
      'check/failed: This doesn’t hold: a.bending.steps < 2 (2 against 2).',
    ];
    expect(project.findingsWithPlans(path).map(({ rule, message }) => `${rule}: ${message}`)).toEqual(failed);
    expect(checks(text)).toEqual(failed);
  });
  test('a check that no plan can decide says so in the end', () => {
    expect(checks(`${metal}${z}\ncheck a.bending.possible\n`)).toEqual([expect.stringMatching(/^check\/not-decided/)]);
  });
  test('measure --json', () => {
    const text = leaf(z);
    const project = projectOf(text);
    const results = project.parts(path).map((result) => ({ ...result, bending: project.planned(path, result)?.plan }));
    const [part] = measureJson('a.planish', results, [], lineIndex(text)).parts;
    expect(part?.bending).toMatchObject({ possible: true, brake: 'bench', steps: [{ number: 1 }, { number: 2, turned_over: true }] });
    const without = measureJson('a.planish', projectOf(`${metal}${z}`).parts(path), [], lineIndex(text)).parts[0];
    expect(without).not.toHaveProperty('bending');
  });
});

describe('a wall that runs on past a corner', () => {
  const pairs = ['top left', 'top right', 'bottom left', 'bottom right'];
  const boxed = (corners: readonly string[], edges = 'top, bottom, left, right'): string =>
    box(`panel a {
  sheet s
  outline rectangle 200 by 150
  edge ${edges} { flange 25 up }
  ${corners.join('\n  ')}
}`);
  const lapped = boxed(pairs.map((pair) => `corner ${pair} lap ${pair.split(' ')[0]} over ${pair.split(' ')[1]} 2`));

  test('is in the leaf’s way at both ends; mitred it goes, and the fix writes that', () => {
    expect(saying(lapped)[0]).toMatch(
      /Tried, and it would go: mitre the corners top left, top right, bottom left, bottom right with a gap of 0\.5 mm/,
    );
    expect(mended(lapped)).toBe(boxed(pairs.map((pair) => `corner ${pair} mitred gap 0.5`)));
    expect(saying(mended(lapped))).toEqual([]);
  });

  test('at one end only, the part hangs off the brake’s end', () => {
    expect(saying(boxed(['corner top left lap top over left 2'], 'top, left'))).toEqual([]);
  });
});
