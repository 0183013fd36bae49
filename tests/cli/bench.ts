/** Runs commands in-process in a folder of its own and keeps what they write. */
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import type { Io } from '../../server/cli/io.js';
import { runProgram } from '../../server/cli/program.js';

export interface Ran {
  readonly code: number;
  readonly text: string;
  readonly errors: string;
}

export const shop = `units inch
material mild_steel { gauge table steel  density 7850 kg/m3 }
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  bend radius 1/16 k 0.42 }
brake bench_leaf { leaf  length 36  capacity 16 ga of mild_steel  least flange 3/8  greatest turn 135 }
`;
export const gate = `with "shop.planish"
units inch
let gate_width = 30 1/4

panel gate {
  sheet crs_18
  outline rectangle gate_width by 11
  edge top { flange 3/4 down }
  edge left, right { flange 5/8 down }
  hole 9/32 at (1, 1 1/2), (gate_width - 1, 1 1/2)
}
`;
export const twoParts = `with "shop.planish"
units inch
panel lid { sheet crs_18  outline rectangle 20 by 14 }
section rail {
  sheet crs_18
  length 10
  leg 1
  turn up 90
  leg 2
}
`;

export const folder = (files: Readonly<Record<string, string>>): string => {
  const path = mkdtempSync(join(tmpdir(), 'planish-cli-'));
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(path, name)), { recursive: true });
    writeFileSync(join(path, name), text);
  }
  return path;
};

export const read = (path: string, name: string): string => readFileSync(join(path, name), 'utf8');

/** One call in a folder. A pipe without colour unless told otherwise. */
export const planish = async (cwd: string, argv: readonly string[], more: Partial<Io> = {}): Promise<Ran> => {
  let text = '';
  let errors = '';
  const code = await runProgram(argv, {
    write: (each) => {
      text += each;
    },
    writeError: (each) => {
      errors += each;
    },
    cwd,
    columns: Number.POSITIVE_INFINITY,
    colour: false,
    interactive: false,
    ...more,
  });
  return { code, text, errors };
};
