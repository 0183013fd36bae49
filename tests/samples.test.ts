/** The sample projects are what a user learns from: every one of them checks without an error or a warning, is tidy, and lays out. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { format } from '../grammar/index.js';
import type { EdgeChain, EdgeStep } from '../server/model/part.js';
import { partsToCut } from '../server/node-cutting.js';
import { nodeFiles, projectPath } from '../server/node-files.js';
import { createProject } from '../server/project.js';
import { drawPiece } from '../server/sheets/index.js';
import { cuttingJob, pieceWork } from '../server/stock/index.js';

const root = projectPath('samples');
const names = readdirSync(root, { recursive: true })
  .map(String)
  .filter((name) => name.endsWith('.planish'))
  .sort();
const project = createProject({ files: nodeFiles(), root });

describe('the samples', () => {
  it('are two projects of a shop and at least five part files each', () => {
    for (const folder of ['cargo-trike', 'tool-cabinet']) {
      const own = names.filter((name) => name.startsWith(`${folder}/`));
      expect(own).toContain(`${folder}/shop.planish`);
      expect(own.length).toBeGreaterThanOrEqual(6);
    }
  });

  it('show every way to make an edge and a corner, mirrored and pierced through, and bends reckoned from a strip', () => {
    const panels = names.flatMap((name) => project.parts(`${root}/${name}`).flatMap(({ part }) => (part.kind === 'panel' ? [part] : [])));
    const steps = (chains: readonly EdgeChain[]): readonly EdgeStep[] =>
      chains.flatMap((chain) => chain.steps.flatMap((step) => (step.kind === 'flange' ? [step, ...steps(step.edges)] : [step])));
    const made = panels.flatMap((panel) => steps(panel.edges));
    expect([...new Set(made.map(({ kind }) => kind))].sort()).toEqual(['curl', 'flange', 'hem', 'joggle', 'rolled', 'tab']);
    expect(made.some((step) => step.kind === 'flange' && step.taper !== undefined)).toBe(true);
    expect([...new Set(made.flatMap((step) => (step.kind === 'hem' ? [step.style.kind] : [])))].sort()).toEqual(['open', 'teardrop']);
    const corners = new Set(panels.flatMap((panel) => panel.corners.map(({ treatment }) => treatment.kind)));
    expect([...corners]).toEqual(expect.arrayContaining(['open', 'mitred', 'lap', 'radius']));
    const sections = names.flatMap((name) =>
      project.parts(`${root}/${name}`).flatMap(({ part }) => (part.kind === 'section' ? [part] : [])),
    );
    const turns = new Set(
      sections.map(({ steps: all, firstEdge, lastEdge }) => {
        const way = all.map((step) => (step.kind === 'turn' ? step.direction : '')).join('');
        return `${way}${firstEdge.length + lastEdge.length > 0 ? ' hemmed' : ''}`;
      }),
    );
    // A hat, a Z, a channel, a cleat, a channel with hemmed edges.
    expect([...turns]).toEqual(expect.arrayContaining(['downupupdown', 'updown', 'upup', 'updownup', 'upup hemmed']));
    expect(panels.some((panel) => panel.cuts.some(({ through }) => through === 'base'))).toBe(true);
    expect(panels.some((panel) => panel.cuts.some(({ id }) => id.endsWith('.opposite')))).toBe(true);
    expect(panels.some((panel) => panel.sheet?.value.method?.kind === 'trial')).toBe(true);
  });

  it.each(['cargo-trike', 'tool-cabinet'])('%s can be cut and bought: sheets and lengths, mitres and remnants, all priced', (folder) => {
    const own = names.filter((name) => name.startsWith(`${folder}/`)).map((name) => `${root}/${name}`);
    const job = cuttingJob(
      own.flatMap((path) => partsToCut(project, path)),
      { kerf: 3, margin: 6, turnStep: Math.PI / 2, times: 1 },
    );
    expect(job.left).toEqual([]);
    expect(job.sheets.length).toBeGreaterThanOrEqual(3);
    expect(job.lengths.length).toBeGreaterThanOrEqual(3);
    for (const { stock, currency, question } of job.lengths) {
      expect(stock.price, stock.name).toBeGreaterThan(0);
      expect(currency).toMatch(/^[$€]$/);
      expect(question.kerf).toBeGreaterThan(0);
    }
    for (const { sheet } of job.sheets) expect(sheet.price, sheet.name).toBeGreaterThan(0);
    expect(job.lengths.some(({ question }) => question.pieces.some(({ mitre }) => mitre !== undefined))).toBe(true);
    expect(job.lengths.some(({ question }) => question.stock.some(({ offcut }) => offcut === true))).toBe(true);
    expect(job.sheets.some(({ sheet }) => (sheet.offcuts ?? []).length > 0)).toBe(true);
  });

  it.each(names)('%s has no error and no warning', (name) => {
    const said = project
      .findingsWithPlans(`${root}/${name}`)
      .filter((finding) => finding.severity === 'error' || finding.severity === 'warning');
    expect(said.map((finding) => `${finding.rule}: ${finding.message}`)).toEqual([]);
  });

  it.each(names)('%s is tidy', (name) => {
    const text = readFileSync(join(root, name), 'utf8');
    expect(format(text)).toBe(text);
  });

  it.each(names)('%s lays every part out, inside a sheet', (name) => {
    for (const { part, blank } of project.parts(`${root}/${name}`)) {
      if (part.kind === 'piece' || part.kind === 'strap') {
        const work = pieceWork(part, { say: String });
        expect(work.length, part.name).toBeLessThanOrEqual(part.stock?.value.length ?? 0);
        expect(work.mass, part.name).toBeGreaterThan(0);
        expect(drawPiece(part, { unit: undefined }), part.name).toBeDefined();
        continue;
      }
      // Lengths of tube and bar have no flat.
      if (part.kind !== 'panel' && part.kind !== 'section') continue;
      const laid = blank.blank;
      expect(laid, part.name).toBeDefined();
      if (laid === undefined) continue;
      const sheet = part.sheet?.value.size;
      expect(laid.width * laid.height).toBeLessThan((sheet?.width ?? 0) * (sheet?.height ?? 0));
      // The blank is never larger than its box, nor lighter than nothing.
      expect(laid.area).toBeLessThan(laid.width * laid.height + 1e-6);
      expect(laid.mass).toBeGreaterThan(0);
    }
  });
});
