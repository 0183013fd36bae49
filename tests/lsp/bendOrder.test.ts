/** The folding order is worked out in the background, and told when it is known. */
import path from 'node:path';
import { expect, test } from 'vitest';
import { planBending } from '../../server/brake/index.js';
import { memoryFiles } from '../../server/files.js';
import { type BendOrders, createBendOrders } from '../../server/lsp/bendOrder.js';
import { nodeFiles } from '../../server/node-files.js';
import { createProject, type PartResult } from '../../server/project.js';

const cabinet = path.resolve(import.meta.dirname, '../../samples/tool-cabinet');
const partOf = (file: string, name: string): PartResult => {
  const whole = path.join(cabinet, file);
  const found = createProject({ files: nodeFiles(), root: cabinet })
    .parts(whole)
    .find(({ part }) => part.name === name);
  if (found === undefined) throw new Error(`${file} has no ${name}`);
  return found;
};
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

test('an order is the plan’s own', async () => {
  const cleat = partOf('french-cleat.planish', 'cabinet_cleat');
  const { orders, told } = await answered((each) => expect(each.of('file:///cleat', cleat)).toBeUndefined());
  expect(told).toEqual(['file:///cleat']);
  const order = orders.of('file:///cleat', cleat);
  const { part, blank } = cleat;
  if (part.kind !== 'section' || blank.blank === undefined) throw new Error('the cleat is a section');
  const plan = planBending(part, blank.blank)?.plan;
  expect(plan?.possible).toBe(true);
  expect(order).toEqual({
    kind: 'planned',
    brake: plan?.brake.name,
    steps: plan?.steps.map(({ bends }) => ({ bends, from: 0, to: 1 })),
  });
});

test('who looks at another part meanwhile gets that one’s order', async () => {
  const [drawer, cleat] = [partOf('drawer.planish', 'drawer'), partOf('french-cleat.planish', 'wall_cleat')];
  const { orders, told } = await answered((each) => {
    each.of('file:///drawer', drawer);
    each.of('file:///cleat', cleat);
  });
  expect(told).toEqual(['file:///cleat']);
  expect(orders.of('file:///cleat', cleat)?.kind).toBe('planned');
});

test('where there is nothing to bend, or no brake, there is nothing to wait for', () => {
  const orders = createBendOrders(
    () => expect.unreachable(),
    () => expect.unreachable(),
  );
  const drawer = partOf('drawer.planish', 'drawer');
  if (drawer.part.kind !== 'panel' || drawer.blank.blank === undefined) throw new Error('the drawer is a panel');
  expect(orders.of('file:///drawer', { ...drawer, part: { ...drawer.part, brakes: [] } })).toEqual({ kind: 'nothing to plan' });
  const flat = { ...drawer.blank, blank: { ...drawer.blank.blank, bends: [] } };
  expect(orders.of('file:///drawer', { ...drawer, blank: flat })).toEqual({ kind: 'nothing to plan' });
});

test('a part that no brake of the shop bends is said to be blocked', async () => {
  const text = `units mm
material mild_steel { density 7850 kg/m3 }
sheet st { material mild_steel  thickness 1  bend radius 1 k 0.42 }
brake short_leaf { leaf  length 100 }
panel tray { sheet st  outline rectangle 200 by 100  edge top { flange 20 up } }
`;
  const [tray] = createProject({ files: memoryFiles({ '/job/tray.planish': text }), root: '/job' }).parts('/job/tray.planish');
  if (tray === undefined) throw new Error('there is a tray');
  const { orders } = await answered((each) => each.of('file:///tray', tray));
  expect(orders.of('file:///tray', tray)).toEqual({ kind: 'blocked' });
});
