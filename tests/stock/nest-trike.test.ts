/** The blanks of a real job on real sheets. */
import { describe, expect, it } from 'vitest';
import type { Blank } from '../../server/blank/types.js';
import { nodeFiles, projectPath } from '../../server/node-files.js';
import { createProject } from '../../server/project.js';
import { nestWhile } from '../../server/stock/index.js';
import type { NestQuestion, PieceToNest } from '../../server/stock/types.js';
import { faults, forSteps } from './nest-checking.js';

const files = ['canopy-socket', 'floor', 'gate', 'hose-bracket', 'produce-box', 'rain-lid', 'tyre-guard'];
const root = projectPath('samples');
const project = createProject({ files: nodeFiles(), root });

const asPiece = (id: string, blank: Blank, quantity: number): PieceToNest => ({
  id,
  outline: blank.outline,
  holes: blank.cutouts.map((cut) => cut.loop),
  quantity,
  grain: 'any',
});

describe("the cargo trike's blanks", () => {
  it('lie on sheets of 48 by 96 inches with a cut of 1/8 and a margin of 1/4', () => {
    const blanks = files.flatMap((name) => project.parts(`${root}/cargo-trike/${name}.planish`));
    const pieces = blanks.flatMap(({ part, blank }) => (blank.blank === undefined ? [] : [asPiece(part.name, blank.blank, 2)]));
    expect(pieces.length).toBeGreaterThanOrEqual(7);
    const question: NestQuestion = {
      pieces,
      stock: [
        { id: 'whole', width: 2438.4, height: 1219.2 },
        { id: 'remnant', width: 700, height: 500, offcut: true },
      ],
      kerf: 3.175,
      margin: 6.35,
    };
    const result = nestWhile(question, {}, forSteps(150));
    expect(faults(question, result)).toEqual([]);
    expect(result.unplaced).toEqual([]);
    // No fewer sheets than the area asks for.
    const area = result.sheets.reduce((sum, sheet) => sum + sheet.used, 0);
    const whole = result.sheets.filter((sheet) => !sheet.offcut).length;
    expect(whole).toBeGreaterThanOrEqual(Math.ceil((area - 700 * 500) / (2438.4 * 1219.2)));
    expect(result.sheets.some((sheet) => sheet.offcut)).toBe(true);
  });
});
