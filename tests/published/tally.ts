/** A reporter that counts the published values which were compared, source by source, with the worst deviation of each. */
import type { Reporter, TestModule } from 'vitest/node';
import type { Comparison } from './against.js';

const off = ({ value, print }: Comparison): number => Math.abs(value - Number(print));
/** 1 is half of the last figure printed. */
const share = (one: Comparison): number => off(one) / one.rounding;
const worst = (of: readonly Comparison[], by: (one: Comparison) => number): Comparison | undefined =>
  of.reduce<Comparison | undefined>((most, one) => (most === undefined || by(one) > by(most) ? one : most), undefined);
const figure = (value: number): string => Number(value.toPrecision(3)).toString();

const lineOf = (source: string, all: readonly Comparison[]): string => {
  const distinct = new Set(all.map(({ what }) => what)).size;
  const close = all.filter(({ within }) => within === undefined);
  const coarse = all.filter(({ within }) => within !== undefined);
  const [first] = all as readonly [Comparison];
  const said = [`${distinct} values, ${all.length} comparisons (${first.kind}): ${source}`];
  const most = worst(close, off);
  const rounding = worst(close, share);
  if (most !== undefined && rounding !== undefined)
    said.push(`    worst ${figure(off(most))} ${most.unit}; against half the last figure ${figure(share(rounding))} (${rounding.what})`);
  const far = worst(coarse, off);
  if (far !== undefined) {
    const bare = new Set(coarse.map(({ what }) => what)).size;
    said.push(
      `    of which ${bare} held more widely (a coarser rule of the source, or a limit found by halving): worst ${figure(off(far))} ${far.unit} (${far.what}, printed ${far.print})`,
    );
  }
  return said.join('\n');
};

export default class Tally implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const bySource = new Map<string, Comparison[]>();
    let failed = 0;
    for (const module of modules) {
      for (const test of module.children.allTests()) {
        if (test.result().state === 'failed') failed++;
        for (const one of test.meta().comparisons ?? []) bySource.set(one.source, [...(bySource.get(one.source) ?? []), one]);
      }
    }
    const all = [...bySource.values()].flat();
    const values = new Set(all.map(({ source, what }) => `${source}: ${what}`)).size;
    for (const [source, of] of [...bySource].sort()) process.stdout.write(`${lineOf(source, of)}\n`);
    process.stdout.write(`${values} values of ${bySource.size} sources, ${all.length} comparisons; ${failed} tests failed\n`);
  }
}
