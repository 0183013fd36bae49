/** Versions of a file's parts to hold against each other. The command line and the editor ask alike. */
import { planBendingInSteps } from './brake/index.js';
import { measureTable } from './measure/index.js';
import type { Part } from './model/part.js';
import type { PartResult, Project } from './project.js';
import type { Version } from './sheets/index.js';

/** Longer than this an order is not looked for, ms: a comparison is not a plan. */
const patience = 1500;

/** `top.2, top.1, left.1`; undefined without a brake or bends, or when it is not found soon. */
const orderOf = (part: Part, { blank: { blank } }: PartResult): string | undefined => {
  if (blank === undefined || (part.kind !== 'panel' && part.kind !== 'section')) return undefined;
  const end = performance.now() + patience;
  const steps = planBendingInSteps(part, blank);
  for (;;) {
    const step = steps.next();
    if (step.done !== true) {
      if (performance.now() > end) return undefined;
      continue;
    }
    const plan = step.value?.plan;
    return plan === undefined
      ? undefined
      : plan.possible
        ? `${plan.order.join(', ')} on ${plan.brake.name}`
        : `no order ${plan.proven ? 'works' : 'was found'}`;
  }
};

export const versionsOf = (project: Project, path: string, denominator?: number): readonly Version[] => {
  const unit = project.model(path).units;
  return project.parts(path).map((result) => {
    const { part, blank, beads, folded } = result;
    return {
      part,
      blank: blank.blank,
      beads: blank.blank === undefined ? undefined : beads,
      rows: measureTable(part, blank.blank, unit, denominator, beads, folded),
      order: () => orderOf(part, result),
    };
  });
};
