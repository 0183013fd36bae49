/** `planish plan FILE [PART]`: the order of the bends on this shop's brake, step by step, or what blocks it. */
import { parseArgs } from 'node:util';
import { bendingReport, planBending, sayBlocked, sayChange, sayHandling, sayStep, withSuggestions } from '../brake/index.js';
import { sayBothLengths, sayLength } from '../model/display.js';
import { oneFile, shownPath } from './files.js';
import { callError, exit, type Io } from './io.js';
import { chosenParts } from './measure.js';
import { outOfReach, rollingLines, rollingReport } from './plan-rolling.js';
import { openProjects } from './projects.js';
import { colours, wrapped } from './words.js';

export const help = `planish plan FILE [PART]

The order in which the beads of each part are rolled: which dies, which way up,
from which end, how deep in each pass. Then the order in which its bends are made
on this shop's brake: which side goes under the nose, which face is up, how far
to set the leaf. Where no order works: which bend is stopped by what, and the
smallest change that was tried and frees it.

  --json   for programs: mm and degrees

The exit code is 1 when a part can't be rolled or bent here.
`;

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { values, positionals } = parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: { json: { type: 'boolean', default: false } },
  });
  const [path, wanted, ...rest] = positionals;
  if (path === undefined || rest.length > 0) throw callError('plan wants one file, and a part of it if you like: planish plan FILE [PART]');
  const projects = openProjects(io);
  const file = oneFile(path, io);
  const shown = shownPath(file, io);
  const project = projects.of(file);
  const results = chosenParts(project.parts(file), wanted, shown);
  const { units } = project.model(file);
  const words = {
    say: (mm: number) => sayLength(mm, units),
    sayBoth: (a: number, b: number) => sayBothLengths(a, b, units),
  };
  const plans = results.map(({ part, blank, beads: rolled }) => {
    const beads = blank.blank === undefined ? undefined : rolled;
    if ((part.kind !== 'panel' && part.kind !== 'section') || blank.blank === undefined)
      return { part, beads, planned: undefined, laidOut: false, bends: 0 };
    const planned = planBending(part, blank.blank);
    return {
      part,
      beads,
      planned: planned === undefined ? undefined : withSuggestions(part, planned),
      laidOut: true,
      bends: blank.blank.bends.length,
    };
  });
  const stopped = plans.some(({ planned, beads }) => planned?.plan.possible === false || outOfReach(beads).length > 0);
  if (values.json) {
    const parts = plans.map(({ part, beads, planned }) => ({
      name: part.name,
      kind: part.kind,
      ...(rollingReport(beads) === undefined ? {} : { rolling: rollingReport(beads) }),
      ...(planned === undefined ? {} : { bending: bendingReport(planned.plan) }),
    }));
    io.write(`${JSON.stringify({ schema: 1, file: shown, parts }, undefined, 2)}\n`);
    return stopped ? exit.findings : exit.fine;
  }
  const paint = colours(io);
  const line = (text: string, indent = '  '): void => io.write(`${indent}${wrapped(text, io.columns - indent.length, `${indent}   `)}\n`);
  if (plans.length === 0) io.write(`There is no part in ${shown}.\n`);
  for (const { part, beads, planned, laidOut, bends } of plans) {
    const rolling = rollingLines(beads, units);
    if (rolling.length > 0) {
      io.write(`${paint.bold(part.name)}\n`);
      let step = 0;
      for (const { kind, text } of rolling) {
        if (kind === 'step') line(`${String(++step).padStart(2)}  ${paint.bold(text)}`);
        else line(text, kind === 'detail' ? '      ' : '  ');
      }
    }
    if (planned === undefined && rolling.length > 0 && laidOut && bends === 0) {
      io.write('\n');
      continue;
    }
    if (planned === undefined) {
      const why = !laidOut ? 'no blank could be laid out' : bends === 0 ? 'nothing to bend' : 'no brake described';
      io.write(`${paint.bold(part.name)}: ${why}\n\n`);
      continue;
    }
    const { plan } = planned;
    io.write(
      `${paint.bold(part.name)}, on ${plan.brake.name}${plan.possible ? '' : plan.proven ? ': no order works' : ': no order was found; it has too many bends to try them all'}\n`,
    );
    if (!plan.possible) {
      for (const blocked of plan.blocked.slice(0, 3)) line(sayBlocked(blocked, words));
      for (const change of plan.suggestions) line(`Tried, and it goes: ${sayChange(change, words)}.`);
      if (plan.suggestions.length === 0 && plan.blocked.length > 0) line('No single change of those tried frees it.');
    }
    if (plan.preBent !== undefined) line(`${plan.preBent} is made in two goes, since nothing else works.`);
    for (const step of plan.steps) {
      line(`${String(step.number).padStart(2)}  ${paint.bold(step.bends.join(', '))}`);
      for (const text of sayStep(step, words)) line(text, '      ');
    }
    const { cost, best } = plan;
    if (cost !== undefined)
      line(`It is ${sayHandling(cost)}${best ? '' : '; too many bends to weigh all orders: this is one that works'}.`);
    if (plan.steps.some(({ markOffset }) => markOffset > 0))
      line('The line is the one to scribe: it lies under the nose’s edge, one inside radius from the bend’s tangent on the clamped side.');
    if (plan.stainless !== undefined)
      line(
        `Stainless: by strength the brake takes ${words.say(plan.stainless.takes)}; many shops allow ${words.say(plan.stainless.practice)}.`,
      );
    for (const text of plan.notChecked) line(`Not checked: ${text}.`);
    io.write('\n');
  }
  return stopped ? exit.findings : exit.fine;
};
