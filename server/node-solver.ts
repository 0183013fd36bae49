/** The solver of mixed-integer programmes under Node; loaded when first asked for. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Solver } from './stock/index.js';

export const openSolver = async (): Promise<Solver> => {
  const { default: loadHighs } = await import('highs');
  const shipped = fileURLToPath(new URL('./highs.wasm', import.meta.url));
  const highs = await loadHighs(existsSync(shipped) ? { locateFile: () => shipped } : undefined);
  return {
    solve: (model, seconds, enough) => {
      const target = enough === undefined ? {} : { objective_target: enough + 1e-6 * Math.max(1, Math.abs(enough)) * 1e-3 };
      const solution = highs.solve(model, { time_limit: seconds, output_flag: false, ...target });
      const columns = Object.fromEntries(
        Object.entries(solution.Columns).map(([name, column]) => [name, 'Primal' in column ? Number(column.Primal) : 0]),
      );
      const rows = Object.fromEntries(
        solution.Rows.map((row: { readonly Name?: string; readonly Dual?: number }) => [row.Name ?? '', row.Dual ?? 0]),
      );
      return { optimal: solution.Status === 'Optimal', columns, rows };
    },
  };
};
