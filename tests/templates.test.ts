import { describe, expect, test } from 'vitest';
import { memoryFiles } from '../server/files.js';
import { createProject } from '../server/project.js';
import { type NewFile, newFile } from '../server/templates.js';

const textOf = (file: NewFile): string => {
  const made = newFile(file);
  return 'text' in made ? made.text : `fault: ${made.fault}`;
};

describe('names for a new part', () => {
  test.each(['drop_gate', 'Gate2', '_lid', 'größe'])('%s will do', (name) => {
    expect(textOf({ kind: 'panel', name })).toContain(`panel ${name} {`);
  });
  test.each([
    ['', 'needs a name'],
    ['2gate', 'is not a name'],
    ['drop gate', 'letters, digits and _'],
    ['panel', 'is a word of the language'],
  ])('"%s": %s', (name, message) => {
    expect(newFile({ kind: 'panel', name })).toEqual({ fault: expect.stringContaining(message) });
  });
});

describe('a shop file beside the new part', () => {
  const galvanised =
    '// sheet old {\nunits inch\nmaterial steel { density 7850 kg/m3 }\n  sheet galv_20 { material steel }\nsheet crs_20 { }\n';
  test('gives its first sheet and its units; the part then describes no metal of its own', () => {
    const text = textOf({ kind: 'panel', name: 'lid', shop: galvanised });
    expect(text).toMatch(/^with "shop\.planish"\n\nunits inch\n/);
    expect(text).toMatch(/panel lid \{\n {2}sheet galv_20\n/);
    expect(text).not.toContain('material');
  });
  test('gives way to units that are asked for', () => {
    expect(textOf({ kind: 'panel', name: 'lid', units: 'millimetre', shop: galvanised })).toContain('units millimetre');
  });
  test('is left alone while it has no sheet', () => {
    const text = textOf({ kind: 'section', name: 'rail', shop: 'units mm\nbrake leaf_brake { leaf }\n' });
    expect(text).not.toMatch(/^with/);
    expect(text).toContain('units millimetre');
  });
});

describe('a new file checks clean as it is', () => {
  const check = (files: Readonly<Record<string, string>>, path: string) => {
    const project = createProject({ files: memoryFiles(files), root: '/job' });
    return { findings: project.findings(path).map(({ rule, message }) => `${rule}: ${message}`), parts: project.parts(path) };
  };
  const units = ['inch', 'millimetre'] as const;

  test.each(units)('a shop file in %s, and both kinds of part by it', (unit) => {
    const shop = textOf({ kind: 'shop', name: '', units: unit });
    for (const kind of ['panel', 'section'] as const) {
      const text = textOf({ kind, name: 'lid', shop });
      expect(text).toContain(`units ${unit}`);
      const files = { '/job/shop.planish': shop, '/job/lid.planish': text };
      expect(check(files, '/job/shop.planish').findings).toEqual([]);
      const lid = check(files, '/job/lid.planish');
      expect(lid.findings).toEqual([]);
      expect(lid.parts[0]?.blank.blank).toBeDefined();
    }
  });

  test.each(units)('a part on its own in %s', (unit) => {
    for (const kind of ['panel', 'section'] as const) {
      const text = textOf({ kind, name: 'lid', units: unit });
      const lid = check({ '/job/lid.planish': text }, '/job/lid.planish');
      expect(lid.findings).toEqual([]);
      expect(lid.parts[0]?.blank.blank).toBeDefined();
    }
  });
});
