import { describe, expect, test } from 'vitest';
import { faultOfName, newFileText, readShopOutline } from '../../client/templates.js';
import { memoryFiles } from '../../server/files.js';
import { createProject } from '../../server/project.js';

describe('names for a new part', () => {
  test.each(['drop_gate', 'Gate2', '_lid', 'größe'])('%s will do', (name) => expect(faultOfName(name)).toBeUndefined());
  test.each([
    ['', 'needs a name'],
    ['2gate', 'does not start with a digit'],
    ['drop gate', 'letters, digits and _'],
    ['panel', 'is a word of the language'],
  ])('"%s": %s', (name, message) => expect(faultOfName(name)).toContain(message));
});

describe('a shop file beside the new part', () => {
  test('gives its first sheet and its units', () => {
    const text = '// sheet old {\nunits inch\nmaterial steel { density 7850 kg/m3 }\n  sheet crs_18 { material steel }\nsheet crs_20 { }\n';
    expect(readShopOutline(text)).toEqual({ sheet: 'crs_18', units: 'inch' });
  });
  test('is in millimetres unless it says inches, and may have no sheet', () => {
    expect(readShopOutline('units mm\nbrake leaf_brake { leaf }\n')).toEqual({ sheet: undefined, units: 'millimetre' });
  });
  test('is brought in by the new part, which then describes no metal of its own', () => {
    const text = newFileText({ kind: 'panel', name: 'lid', units: 'inch', shop: { file: 'shop.planish', sheet: 'galv_20' } });
    expect(text).toMatch(/^with "shop\.planish"\n\nunits inch\n/);
    expect(text).toMatch(/panel lid \{\n {2}sheet {3}galv_20\n/);
    expect(text).not.toContain('material');
  });
});

describe('a new file computes as it is', () => {
  const check = (files: Readonly<Record<string, string>>, path: string) => {
    const project = createProject({ files: memoryFiles(files), root: '/job' });
    return { findings: project.findings(path).map(({ rule, message }) => `${rule}: ${message}`), parts: project.parts(path) };
  };
  const units = ['inch', 'millimetre'] as const;

  test.each(units)('a shop file in %s, and both kinds of part by it', (unit) => {
    const shop = newFileText({ kind: 'shop', name: 'shop', units: unit, shop: undefined });
    const { sheet } = readShopOutline(shop);
    expect(readShopOutline(shop).units).toBe(unit);
    for (const kind of ['panel', 'section'] as const) {
      const text = newFileText({ kind, name: 'lid', units: unit, shop: { file: 'shop.planish', sheet: sheet ?? 'none' } });
      const files = { '/job/shop.planish': shop, '/job/lid.planish': text };
      expect(check(files, '/job/shop.planish').findings).toEqual([]);
      const lid = check(files, '/job/lid.planish');
      expect(lid.findings).toEqual([]);
      expect(lid.parts[0]?.blank.blank).toBeDefined();
    }
  });

  test.each(units)('a part on its own in %s', (unit) => {
    for (const kind of ['panel', 'section'] as const) {
      const text = newFileText({ kind, name: 'lid', units: unit, shop: undefined });
      const lid = check({ '/job/lid.planish': text }, '/job/lid.planish');
      expect(lid.findings).toEqual([]);
      expect(lid.parts[0]?.blank.blank).toBeDefined();
    }
  });
});
