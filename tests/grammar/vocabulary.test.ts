import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/parser.js';
import {
  entries,
  entriesAt,
  explainWord,
  functions,
  places,
  reservedWords,
  unitKinds,
  unitOf,
  units,
  wordSpellings,
} from '../../grammar/vocabulary/index.js';
import type { Pattern } from '../../grammar/vocabulary/pattern.js';
import { reference } from '../../grammar/vocabulary/reference.js';
import { blockOf, edgesOf, fieldsOf, usageOf, wordsOf } from '../../grammar/vocabulary/words.js';
import { memoryFiles } from '../../server/files.js';
import { createProject } from '../../server/project.js';

const below = (pattern: Pattern): readonly Pattern[] => ('items' in pattern ? pattern.items : 'item' in pattern ? [pattern.item] : []);
const parts = (pattern: Pattern): readonly Pattern[] => [pattern, ...below(pattern).flatMap(parts)];

/** How often a field can be met on one way through a pattern. */
const timesMet = (pattern: Pattern, field: string): number => {
  if (pattern.kind === 'list') return pattern.field === field ? 1 : 0;
  const own = 'field' in pattern && pattern.field === field ? 1 : 0;
  const counts = below(pattern).map((kid) => timesMet(kid, field));
  return own + (pattern.kind === 'oneOf' ? Math.max(0, ...counts) : counts.reduce((a, b) => a + b, 0));
};
const inMoreThanOne = (sets: readonly ReadonlySet<string>[]): string[] => {
  const all = sets.flatMap((set) => [...set]);
  return all.filter((w, index) => all.indexOf(w) !== index);
};

describe('the words of the language', () => {
  it('never leave it open whether a word goes on with a statement or begins the next', () => {
    const unclear = entries.flatMap((entry) =>
      entry.places.flatMap((place) => {
        const starts = new Set(entriesAt(place).map((other) => other.word));
        return [...edgesOf(entry.pattern).open].filter((w) => starts.has(w)).map((w) => `${entry.id} in ${place}: ${w}`);
      }),
    );
    expect(unclear).toEqual([]);
  });

  it('are told open only where the statement might as well be over', () => {
    const corner: Pattern = {
      kind: 'optional',
      item: {
        kind: 'sequence',
        items: [
          { kind: 'word', word: 'corner' },
          { kind: 'value', field: 'r', want: 'length' },
        ],
      },
    };
    const size: Pattern = { kind: 'value', field: 'w', want: 'length' };
    expect([...edgesOf({ kind: 'sequence', items: [size, corner] }).open]).toEqual(['corner']);
    expect([...edgesOf({ kind: 'sequence', items: [corner, size] }).open]).toEqual([]);
  });

  it('tell the forms of a statement apart by their first word', () => {
    for (const entry of entries)
      for (const pattern of parts(entry.pattern)) {
        if (pattern.kind !== 'oneOf' && pattern.kind !== 'anyOrder') continue;
        const edges = pattern.items.map(edgesOf);
        expect(inMoreThanOne(edges.map((edge) => edge.first)), entry.id).toEqual([]);
        expect(edges.filter((edge) => edge.firstOther).length, entry.id).toBeLessThanOrEqual(pattern.kind === 'oneOf' ? 1 : 0);
        expect(
          edges.some((edge) => edge.empty),
          entry.id,
        ).toBe(false);
      }
  });

  it('are never the spelling of a unit, so that no number swallows one', () => {
    const unitWords = new Set(units.flatMap((unit) => unit.spellings));
    const clashes = entries.flatMap((entry) =>
      // Right after `arc` and `units` no number can stand, so `in` and `inch` are safe there.
      [entry.word, ...(entry.word === 'arc' || entry.word === 'units' ? [] : wordsOf(entry.pattern))]
        .filter((w) => unitWords.has(w))
        .map((w) => `${entry.id}: ${w}`),
    );
    expect(clashes).toEqual([]);
  });

  it('that are reserved begin a statement or belong to values', () => {
    const starts = new Set(entries.map((entry) => entry.word));
    expect(reservedWords.filter((w) => !starts.has(w))).toEqual(['and', 'or', 'not', 'yes', 'no']);
  });
});

describe('every statement', () => {
  it('has an id of its own, and one meaning in each place', () => {
    expect(new Set(entries.map((entry) => entry.id)).size).toBe(entries.length);
    for (const place of places) expect(entriesAt(place)).toHaveLength(entries.filter((entry) => entry.places.includes(place)).length);
  });

  it.each(entries.map((entry) => [entry.id, entry] as const))('%s: names each argument once and explains all of them', (_, entry) => {
    expect(Object.keys(entry.arguments).sort()).toEqual([...fieldsOf(entry.pattern)].sort());
    for (const field of fieldsOf(entry.pattern)) expect(timesMet(entry.pattern, field), field).toBeLessThanOrEqual(1);
    for (const help of Object.values(entry.arguments)) expect(help.summary).toMatch(/\.$/);
    expect(entry.summary).toMatch(/^[^\n]+\.$/);
    expect(entry.note).toMatch(/\.$/);
    expect(entry.example).toContain(entry.word);
    expect(entry.example).toMatch(/\n$/);
  });

  it('opens only places that hold statements, and every place can be reached', () => {
    const opened = new Set(entries.map((entry) => blockOf(entry.pattern)).filter((place) => place !== undefined));
    expect([...opened].filter((place) => !places.includes(place))).toEqual([]);
    expect(places.filter((place) => place !== 'file' && !opened.has(place))).toEqual([]);
  });

  it('is written in the reference as a person writes it', () => {
    const usage = (id: string) => entries.filter((entry) => entry.id === id).flatMap(usageOf);
    expect(usage('let')).toEqual(['let NAME = VALUE']);
    expect(usage('edge')).toEqual(['edge EDGE, … [from LENGTH to LENGTH] { … }']);
    expect(usage('hem')).toEqual(['hem DEPTH (closed | open GAP | double | teardrop DIAMETER) [up | down] [as NAME]']);
    expect(usage('turn')).toEqual(['turn (up | down) [ANGLE] [radius RADIUS] [outside | inside | flat]']);
  });
});

describe('units', () => {
  it('are each known by one spelling only once', () => {
    const all = units.flatMap((unit) => unit.spellings);
    expect(new Set(all).size).toBe(all.length);
  });

  // NIST SP 811:2008 appendix B.8.
  it.each([
    ['in', 25.4],
    ['ft', 304.8],
    ['thou', 0.0254],
    ['lb', 0.45359237],
    ['oz', 0.028349523125],
    ['lbf', 4.4482216152605],
    ['psi', 0.006894757293168],
    ['ksi', 6.894757293168],
    ['lb/in3', 27679.90471],
    ['lb/ft3', 16.01846337],
    ['in4', 416231.4256],
    ['lbf/in', 0.1751268352],
    ['deg', 0.017453292519943],
  ])('%s', (name, base) => {
    expect((unitOf(name)?.factor ?? 0) / base).toBeCloseTo(1, 9);
  });

  it('carry a density into kg/mm³ when multiplied out', () => {
    expect(unitOf('kg/m3')?.coherent).toBe(1e-9);
    expect(unitOf('g/cm3')?.coherent).toBeCloseTo(1e-6, 15);
    expect(unitKinds.density.dimension).toMatchObject({ mass: 1, length: -3 });
  });

  it('fold a second spelling to a word the tables use', () => {
    const names = ['aluminium', 'centre']; // in names and texts only
    const known = new Set([...names, ...entries.flatMap((entry) => [entry.word, ...wordsOf(entry.pattern)])]);
    expect(Object.values(wordSpellings).filter((w) => !known.has(w))).toEqual([]);
  });
});

it('every function names its arguments as its usage shows them', () => {
  for (const entry of functions) {
    expect(entry.usage.startsWith(`${entry.name}(`)).toBe(true);
    for (const argument of entry.arguments) expect(entry.usage).toContain(argument);
  }
});

describe('the printed reference', () => {
  const page = reference();
  const files = [...page.matchAll(/```planish\n([\s\S]*?)```/g)].map((match) => match[1] as string);

  it('shows every statement', () => {
    for (const entry of entries) expect(page).toContain(entry.summary);
    expect(new Set(files).size).toBe(files.length);
    for (const entry of entries) expect(files).toContain(entry.example);
  });

  it.each([...new Set(files)].map((text, index) => [index + 1, text] as const))('example %i reads without a fault', (_, text) => {
    expect(parse(text).problems.map((problem) => problem.message)).toEqual([]);
  });

  it('links each place to its own chapter', () => {
    const anchors = [...page.matchAll(/^## (.*)$/gm)].map((match) =>
      (match[1] as string)
        .toLowerCase()
        .replaceAll(/[^a-z_ -]/g, '')
        .replaceAll(' ', '-'),
    );
    const links = [...page.matchAll(/\]\(#([^)]*)\)/g)].map((match) => match[1] as string);
    expect(links).toHaveLength(places.length);
    expect(links.filter((link) => !anchors.includes(link))).toEqual([]);
  });
});

describe('every example', () => {
  it.each(entries.map((entry) => [entry.id, entry] as const))('%s stands in its own example, where it may stand', (_, entry) => {
    const found: string[] = [];
    const walk = (statements: ReturnType<typeof parse>['statements']): void => {
      for (const statement of statements) {
        if (statement.entry !== undefined) found.push(statement.entry.id);
        walk(statement.block?.statements ?? []);
      }
    };
    walk(parse(entry.example).statements);
    expect(found).toContain(entry.id);
  });
});

describe('every example is a whole file in which nothing is at fault', () => {
  // What an example brings in with `with "shop.planish"`.
  const shop = `units inch
material mild_steel { gauge table steel  density 7850 kg/m3 }
sheet crs_18 { material mild_steel  thickness 18 ga  bend radius 1/16 k 0.42 }
`;
  const files = [...reference().matchAll(/```planish\n([\s\S]*?)```/g)].map((match) => match[1] as string);

  it.each(files.map((text, index) => [index + 1, text] as const))('example %i', (_, text) => {
    const project = createProject({ files: memoryFiles({ '/job/shop.planish': shop, '/job/part.planish': text }), root: '/job' });
    const faults = project
      .findings('/job/part.planish')
      .filter((finding) => finding.severity === 'error' || finding.severity === 'warning');
    expect(faults.map((finding) => `${finding.rule}: ${finding.message}`)).toEqual([]);
  });
});

describe('the page for a word', () => {
  it('shows a statement in each of its places', () => {
    const page = explainWord('sheet') ?? '';
    expect(page).toContain('`sheet` at the top of a file');
    expect(page).toContain('`sheet` in a panel, in a section and in a trial');
  });

  it('shows where a word is used that begins no statement', () => {
    expect(explainWord('mitred')).toContain('- `flange` in an edge: Turns the edge to a flange.');
  });

  it('knows functions, units, and either spelling of a word', () => {
    expect(explainWord('diagonal')).toContain('Corner to corner');
    expect(explainWord('thou')).toContain('0.0254 mm');
    expect(explainWord('gage')).toBe(explainWord('gauge'));
  });

  it('is missing for a word the language does not have', () => {
    expect(explainWord('wheelbarrow')).toBeUndefined();
  });
});
