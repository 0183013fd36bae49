/** `npm run bench -- plan`: bending plans of parts with twelve bends, each beside `node -e 0` of the same run. */
import { spawnSync } from 'node:child_process';
import { planBending } from '../../server/brake/index.js';
import { boxBrake, leafBrake, made, metal, section } from '../brake/build.js';

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[times.length >> 1] ?? Number.NaN;

const strip = (turn: (i: number) => string): string =>
  section(['leg 40', ...Array.from({ length: 12 }, (_, i) => [turn(i), 'leg 40']).flat()].join(' / '));
const parts: Readonly<Record<string, string>> = {
  'tray, two returns all round': `${metal}${boxBrake}panel a { sheet s  outline rectangle 300 by 250
  edge top, bottom { flange 30 up  flange 11 down  flange 9 down }
  edge left, right { flange 30 up  flange 11 down  flange 9 down }
}`,
  'tray, two returns inward': `${metal}${boxBrake}panel a { sheet s  outline rectangle 300 by 250
  edge top, bottom { flange 30 up  flange 11 up  flange 9 up }
  edge left, right { flange 30 up  flange 11 up  flange 9 up }
}`,
  'strip, 45° to and fro': `${metal}${leafBrake}${strip((i) => (i % 2 === 0 ? 'down 45' : 'up 45'))}`,
  'strip, square waves': `${metal}${leafBrake}${strip((i) => (i % 4 < 2 ? 'down 90' : 'up 90'))}`,
  'strip, all one way, 20° each': `${metal}${leafBrake}${strip(() => 'up 20')}`,
};

for (const [name, text] of Object.entries(parts)) {
  const { part, blank } = made(text);
  const [ours, bare]: [number[], number[]] = [[], []];
  let told = '';
  for (let i = 0; i < 15; i++) {
    const start = performance.now();
    const plan = planBending(part, blank)?.plan;
    if (i >= 3) ours.push(performance.now() - start);
    told = plan?.possible === true ? 'possible' : `blocked after ${plan?.reached}`;
    const beside = performance.now();
    spawnSync(process.execPath, ['-e', '0']);
    if (i >= 3) bare.push(performance.now() - beside);
  }
  const [mine, peer] = [median(ours), median(bare)];
  process.stdout.write(
    `${name.padEnd(40)} ${String(blank.bends.length).padStart(2)} bends, ${told.padEnd(16)} ${mine.toFixed(0).padStart(5)} ms  ${peer.toFixed(0).padStart(5)} ms  ${(mine / peer).toFixed(2)}×\n`,
  );
}
