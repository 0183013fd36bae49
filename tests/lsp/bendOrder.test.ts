/** The folding order is worked out in the background, and told when it is known. */
import path from 'node:path';
import { expect, test } from 'vitest';
import { memoryFiles } from '../../server/files.js';
import { type BendOrders, createBendOrders } from '../../server/lsp/bendOrder.js';
import { nodeFiles } from '../../server/node-files.js';
import { createProject, type PartResult, type Project } from '../../server/project.js';

const cabinet = path.resolve(import.meta.dirname, '../../samples/tool-cabinet');
interface Asked {
  readonly ask: { readonly project: Project; readonly path: string };
  readonly result: PartResult;
}
const partIn = (project: Project, whole: string, name: string): Asked => {
  const result = project.parts(whole).find(({ part }) => part.name === name);
  if (result === undefined) throw new Error(`${whole} has no ${name}`);
  return { ask: { project, path: whole }, result };
};
const cabinetPart = (file: string, name: string): Asked =>
  partIn(createProject({ files: nodeFiles(), root: cabinet }), path.join(cabinet, file), name);

/** Asks, and waits until it is told of the answer. */
const answered = (ask: (orders: BendOrders) => void): Promise<{ readonly orders: BendOrders; readonly told: readonly string[] }> =>
  new Promise((resolve, reject) => {
    const told: string[] = [];
    const orders = createBendOrders((uri) => {
      told.push(uri);
      resolve({ orders, told });
    }, reject);
    ask(orders);
  });

const tray = (brake: string): Asked => {
  const text = `units mm
material mild_steel { density 7850 kg/m3 }
sheet st { material mild_steel  thickness 1  bend radius 1 k 0.42 }
${brake}
panel tray { sheet st  outline rectangle 200 by 100  edge top { flange 20 up } }
`;
  return partIn(createProject({ files: memoryFiles({ '/job/tray.planish': text }), root: '/job' }), '/job/tray.planish', 'tray');
};

test('an order is the plan’s own', async () => {
  const { ask, result } = cabinetPart('french-cleat.planish', 'cabinet_cleat');
  const { orders, told } = await answered((each) => expect(each.of('file:///cleat', ask, result)).toBeUndefined());
  expect(told).toEqual(['file:///cleat']);
  const order = orders.of('file:///cleat', ask, result);
  const plan = ask.project.planned(ask.path, result)?.plan;
  expect(plan?.possible).toBe(true);
  expect(plan?.steps).toHaveLength(3);
  expect(order).toEqual({
    kind: 'planned',
    brake: plan?.brake.name,
    steps: plan?.steps.map(({ bends }) => ({ bends, from: 0, to: 1 })),
  });
});

test('who looks at another part meanwhile gets that one’s order', async () => {
  const [drawer, cleat] = [cabinetPart('drawer.planish', 'drawer'), cabinetPart('french-cleat.planish', 'wall_cleat')];
  const { orders, told } = await answered((each) => {
    each.of('file:///drawer', drawer.ask, drawer.result);
    each.of('file:///cleat', cleat.ask, cleat.result);
  });
  expect(told).toEqual(['file:///cleat']);
  expect(orders.of('file:///cleat', cleat.ask, cleat.result)?.kind).toBe('planned');
});

test('where the shop has no brake there is nothing to wait for', () => {
  const orders = createBendOrders(
    () => expect.unreachable(),
    () => expect.unreachable(),
  );
  const { ask, result } = tray('');
  expect(orders.of('file:///tray', ask, result)).toEqual({ kind: 'nothing to plan' });
});

test('a part that no brake of the shop bends is said to be blocked', async () => {
  const { ask, result } = tray('brake short_leaf { leaf  length 100 }');
  const { orders } = await answered((each) => each.of('file:///tray', ask, result));
  expect(orders.of('file:///tray', ask, result)).toEqual({ kind: 'blocked' });
});
