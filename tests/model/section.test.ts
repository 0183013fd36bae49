import { expect, it } from 'vitest';
import { sectionOf } from './build.js';
import { checkFindings } from './check.js';

it('reads legs and turns in order, with names and holes on legs', () => {
  const socket = sectionOf(
    `units millimetre
section socket {
  length 240
  leg 15
  turn down 90
  leg 32 as web
  turn up 45 radius 2 inside
  leg 1 in
  hole 5 on web at (20, 16)
  hole 5 on leg.3 at (20, 10)
  hole 5 at (20, 7)
}`,
    'socket',
  );
  expect(socket.findings).toEqual([]);
  expect(socket.length?.value).toBe(240);
  expect(socket.convention).toBe('inside');
  expect(socket.steps.map((step) => (step.kind === 'leg' ? step.length : [step.direction, step.turn, step.radius]))).toEqual([
    15,
    ['down', Math.PI / 2, undefined],
    32,
    ['up', Math.PI / 4, 2],
    25.4,
  ]);
  expect(socket.cuts.map(({ on }) => on)).toEqual(['leg.2', 'leg.3', 'leg.1']);
});

it('wants legs and turns by turns', () => {
  checkFindings(`units millimetre
section a {
  length 240
  turn up
//^^^^ shape/turn-without-leg: A section begins with a leg: leg 15.
  leg 10
  leg 20 as web
//^^^ shape/legs-without-turn: Between two legs there must be a turn: turn up 90.
  turn up
  turn down
//^^^^ shape/turn-without-leg: Between two turns there must be a leg: leg 15.
  leg 10 as web
//          ^^^ name/repeated: web already names another leg of this section. Give this one another name.
  turn up inside
  leg 10
  turn up outside
//        ^^^^^^^ shape/mixed-conventions: The legs above are measured inside and these outside. A section is measured one way throughout.
  leg 10
  turn down
//^^^^ shape/turn-without-leg: A section ends with a leg: add the leg that this turn folds up.
  hole 5 on wbe at (1, 1)
//          ^^^ name/unknown: There is no leg wbe here. Did you mean web?
}`);
});

it('reads what stands at the two edges, each from its leg outward, turning on as its leg was turned', () => {
  const channel = sectionOf(
    `units millimetre
section channel {
  length 240
  hem 8 open 2
  joggle 1 over 12 down
  leg 16
  turn up 90
  leg 26 as web
  turn up 90
  leg 16
  curl round 3 as rim
  hole 4 on first.1 at (20, 6)
  hole 4 on first at (40, 6)
  hole 4 on web at (20, 13)
}
section strip {
  length 240
  leg 40
  rolled radius 20 up 90
  hem 8 double
}`,
    'channel',
  );
  expect(channel.findings).toEqual([]);
  expect(channel.firstEdge).toMatchObject([
    { kind: 'joggle', id: 'first.1', direction: 'down' },
    { kind: 'hem', id: 'first.2', direction: 'up', style: { kind: 'open', gap: 2 } },
  ]);
  expect(channel.lastEdge).toMatchObject([{ kind: 'curl', id: 'rim', name: 'rim', direction: 'up' }]);
  expect(channel.cuts.map(({ on }) => on)).toEqual(['first.1', 'first.1', 'leg.2']);
});

it('says where a step can’t stand at the edge of a strip', () => {
  checkFindings(`units millimetre
section a {
  length 240
  joggle 1 over 12 down
//^^^^^^ shape/nothing-can-follow: Nothing can follow a hem, whose cut edge lies folded back on the sheet, so this joggle can’t be made. Write the joggle between the hem and the first leg, or take one of them out.
  hem 8 closed
  leg 16
  joggle 2 over 12 up
//^^^^^^ shape/nothing-can-follow: A joggle stands at an edge of the strip, and here legs follow it. A set-off between two legs is two turns: turn up 45, a leg, turn down 45.
  turn up
  leg 20
  hem 6 double as rim
  hole 4 on rim at (20, 3)
//          ^^^ shape/no-flat-there: A cut can’t be placed on a double hem, whose layers cover one another. Drill it once the hem is closed, or write a hem of one fold.
  hole 4 on rin at (20, 3)
//          ^^^ name/unknown: There is no leg rin here. Did you mean rim?
}
section b {
  length 240
  leg 16
  hem 8 closed
//^^^ shape/no-direction: A hem goes on turning the way of the flange before it, and there is none here. Say which way it folds: up toward the face, or down away from it.
}`);
});
