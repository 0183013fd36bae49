/** The sample projects are what a user learns from: every one of them checks without an error or a warning, is tidy, and lays out. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { format } from '../grammar/index.js';
import { nodeFiles, projectPath } from '../server/node-files.js';
import { createProject } from '../server/project.js';

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

  it.each(names)('%s has no error and no warning', (name) => {
    const said = project.findings(`${root}/${name}`).filter((finding) => finding.severity === 'error' || finding.severity === 'warning');
    expect(said.map((finding) => `${finding.rule}: ${finding.message}`)).toEqual([]);
  });

  it.each(names)('%s is tidy', (name) => {
    const text = readFileSync(join(root, name), 'utf8');
    expect(format(text)).toBe(text);
  });

  it.each(names)('%s lays every part out, inside a sheet', (name) => {
    for (const { part, blank } of project.parts(`${root}/${name}`)) {
      const laid = blank.blank;
      expect(laid, part.name).toBeDefined();
      if (laid === undefined || !('sheet' in part)) continue;
      const sheet = part.sheet?.value.size;
      expect(laid.width * laid.height).toBeLessThan((sheet?.width ?? 0) * (sheet?.height ?? 0));
      // The blank is never larger than its box, nor lighter than nothing.
      expect(laid.area).toBeLessThan(laid.width * laid.height + 1e-6);
      expect(laid.mass).toBeGreaterThan(0);
    }
  });
});
