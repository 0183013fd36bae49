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
