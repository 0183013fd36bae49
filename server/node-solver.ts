/** The solver of mixed-integer programmes under Node; loaded when first asked for. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Solver } from './stock/index.js';

/** Longest that one question may take, s; a proven answer at the sizes of a shop takes a fraction of one. */
const longest = 30;

export const openSolver = async (): Promise<Solver> => {
  const { default: loadHighs } = await import('highs');
  const shipped = fileURLToPath(new URL('./highs.wasm', import.meta.url));
  const highs = await loadHighs(existsSync(shipped) ? { locateFile: () => shipped } : undefined);
  return {
    solve: (model) => {
      const solution = highs.solve(model, { time_limit: longest, output_flag: false });
      const columns = Object.fromEntries(
        Object.entries(solution.Columns).map(([name, column]) => [name, 'Primal' in column ? Number(column.Primal) : 0]),
      );
      return { optimal: solution.Status === 'Optimal', columns, bound: solution.ObjectiveValue };
    },
  };
};
