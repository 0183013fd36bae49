/** The parts of one file: each worked out when asked, or taken over from the model before when nothing it reads has changed. */
import type { Ident, Span, Statement } from '../../grammar/syntax.js';
import { newNameField } from './arguments.js';
import { type Marks, markOf, recordDependencies, textMark } from './dependencies.js';
import type { Finding } from './finding.js';
import type { TrailStep } from './model.js';
import { findNamed } from './names.js';
import type { Part, Sourced } from './part.js';
import { type PartShop, readPart } from './parts.js';
import type { FileNames, Reading, Sink } from './reading.js';
import type { Die } from './shop.js';
import { contentMark, type Things } from './things.js';
import { withTrialsInSight } from './trials.js';

export interface PartRecord {
  readonly statement: Statement;
  readonly name: Ident;
  /** Place among parts of the same name, from 1. */
  readonly nth: number;
  readonly identity: string;
}
/** A part worked out, with what it was worked out from. Holds no tree, so that old texts can go. */
export interface KeptPart {
  readonly textMark: string;
  readonly taken: ReadonlyMap<string, string>;
  readonly part: Part;
  readonly key: string;
  readonly sheetPath: readonly string[] | undefined;
  /** Places outside the part that its findings speak of: while there are any it is worked out each time, since they may have moved. */
  readonly places: string;
  /** Bare lengths whose file names no units; spans the part's own. */
  readonly needs: readonly { readonly file: string; readonly span: Span }[];
}
export interface PartRecords {
  readonly all: readonly PartRecord[];
  /** The first of a name. */
  readonly named: (name: string) => PartRecord | undefined;
  readonly part: (record: PartRecord) => Part | undefined;
  readonly key: (record: PartRecord) => string;
  /** Absolute. */
  readonly needs: (record: PartRecord) => KeptPart['needs'];
  /** All that is known for a later model: worked out here, or still unasked from before. */
  readonly kept: () => ReadonlyMap<string, KeptPart>;
}

interface Working {
  readonly step: TrailStep & { checking: boolean; again: boolean };
  readonly sink: Sink;
  ringed: boolean;
}

export const partsOf = (
  names: FileNames,
  statements: readonly Statement[],
  things: Things,
  marks: Marks,
  before: ReadonlyMap<string, KeptPart> | undefined,
): PartRecords => {
  const counts = new Map<string, number>();
  const all = statements.flatMap((statement): PartRecord[] => {
    const name = newNameField(statement, 'name');
    if (name === undefined) return [];
    const n = (counts.get(name.name) ?? 0) + 1;
    counts.set(name.name, n);
    return [{ statement, name, nth: n, identity: `${name.name} ${n}` }];
  });
  const byIdentity = new Map(all.map((record) => [record.identity, record]));
  const kept = new Map<string, KeptPart>();
  const working = new Map<PartRecord, Working>();
  const trail = names.env.trail.steps;

  /** What every part of the file stands on, whatever it says: the file's unit and the machines in sight. */
  let common: { readonly mark: string; readonly shop: Pick<PartShop, 'brakes' | 'rollers' | 'dies' | 'trials' | 'saws'> } | undefined;
  const commonOf = () => {
    if (common === undefined) {
      const shop = {
        brakes: things.brakes(),
        rollers: things.rollers(),
        dies: things.dies(),
        trials: things.trials(),
        saws: things.saws(),
      };
      const machines = [...shop.brakes, ...shop.rollers, ...shop.dies, ...shop.trials, ...shop.saws].map(contentMark).join('\n');
      // It goes into the key of every part, so it is kept short.
      common = { shop, mark: `${names.path}\n${names.units?.mm ?? 'bare'}\n${textMark(machines, 0, machines.length)}` };
    }
    return common;
  };
  const sheetAt = (path: readonly string[]) => {
    const found = findNamed('sheet', path, names);
    const sheet = found.kind === 'one' ? things.sheet(found.entry) : undefined;
    return sheet === undefined ? undefined : withTrialsInSight(sheet, commonOf().shop.trials);
  };

  const stockAt = (path: readonly string[]) => {
    const found = findNamed('stock', path, names);
    return found.kind === 'one' ? things.stock(found.entry) : undefined;
  };

  const startWork = (record: PartRecord, findings: Finding[], needs: { file: string; span: Span }[]): Working => {
    const said = new Set<string>();
    const zero = record.statement.span.start;
    const relative = (span: Span): Span => ({ start: span.start - zero, end: span.end - zero });
    return {
      step: { file: names.path, kind: 'part', name: record.name.name, span: record.name.span, of: record, checking: false, again: false },
      ringed: false,
      sink: {
        report: (at, rule, message, note) => {
          const span = relative(at);
          const mark = `${span.start} ${span.end} ${rule} ${message}`;
          if (said.has(mark)) return;
          said.add(mark);
          const fixes = (note?.fixes ?? []).map((fix) => ({
            ...fix,
            edits: fix.edits.map((edit) => (edit.file === undefined ? { ...edit, span: relative(edit.span) } : edit)),
          }));
          const related = note?.related === undefined ? {} : { related: note.related };
          findings.push({ file: names.path, span, rule, severity: note?.severity ?? 'error', message, fixes, ...related });
        },
        needsUnits: (file, span) => needs.push({ file, span: relative(span) }),
      },
    };
  };

  const work = (record: PartRecord): KeptPart => {
    const { statement } = record;
    const { mark, shop } = commonOf();
    const ownMark = `${textMark(names.tree.text, statement.span.start, statement.span.end)} ${statement.note ?? ''}\n${mark}`;
    const old = before?.get(record.identity);
    const findings: Finding[] = [];
    const needs: { file: string; span: Span }[] = [];
    const state = startWork(record, findings, needs);
    working.set(record, state);
    trail.push(state.step);
    let result: KeptPart | undefined;
    if (old !== undefined && old.textMark === ownMark && old.places === '') {
      state.step.checking = true;
      let same = true;
      for (const [key, was] of old.taken) {
        if (markOf(key, marks) === was && !state.step.again) continue;
        same = false;
        break;
      }
      state.step.checking = false;
      if (same) result = takenOver(old, shop, sheetAt);
    }
    if (result === undefined) {
      const { dependencies, taken } = recordDependencies(marks);
      const reading: Reading = { names, scope: undefined, sink: state.sink, dependencies, part: record.name.name, measured: undefined };
      const read = readPart(statement, record.name, reading, { ...shop, sheet: (path) => sheetAt(path), stock: (path) => stockAt(path) });
      const part: Part = { ...read.part, findings };
      const places = placesOutside(findings);
      result = { textMark: ownMark, taken, part, key: keyOf(ownMark, taken, places), sheetPath: read.sheetPath, places, needs };
    }
    trail.pop();
    working.delete(record);
    return result;
  };

  const keptOf = (record: PartRecord): KeptPart | undefined => {
    const known = kept.get(record.identity);
    if (known !== undefined) return known;
    const at = working.get(record);
    if (at !== undefined) {
      reportRing(record, at);
      return undefined;
    }
    const result = work(record);
    kept.set(record.identity, result);
    return result;
  };

  /** Parts that measure one another. While it is only being looked whether an old part still holds, it is worked out anew instead. */
  const reportRing = (record: PartRecord, at: Working): void => {
    const from = trail.findIndex((step) => step.of === record);
    const ring = from < 0 ? [] : trail.slice(from);
    let looking = false;
    for (const step of ring) {
      if (!('checking' in step) || step.checking !== true) continue;
      looking = true;
      (step as Working['step']).again = true;
    }
    if (looking || at.ringed) return;
    at.ringed = true;
    const order = [...ring.map((step) => step.name), record.name.name].join(' → ');
    at.sink.report(
      record.name.span,
      'name/ring',
      `These are measured from one another, in a ring: ${order}. Give one of them a size that doesn’t come from the others.`,
    );
  };

  return {
    all,
    named: (name) => byIdentity.get(`${name} 1`),
    part: (record) => keptOf(record)?.part,
    key: (record) => keptOf(record)?.key ?? '',
    needs: (record) => {
      const zero = record.statement.span.start;
      return (keptOf(record)?.needs ?? []).map(({ file, span }) => ({ file, span: { start: span.start + zero, end: span.end + zero } }));
    },
    kept: () => {
      const both = new Map(kept);
      for (const { identity } of all) {
        const old = before?.get(identity);
        if (old !== undefined && !both.has(identity)) both.set(identity, old);
      }
      return both;
    },
  };
};

const placesOutside = (findings: readonly Finding[]): string => {
  const places = findings.flatMap((finding) => [
    ...(finding.related ?? []),
    ...finding.fixes.flatMap((fix) => fix.edits.filter((edit) => edit.file !== undefined)),
  ]);
  return places.length === 0 ? '' : JSON.stringify(places);
};

const keyOf = (mark: string, taken: ReadonlyMap<string, string>, places: string): string => {
  const lines = [mark, places];
  for (const [key, value] of taken) lines.push(`${key}=${value}`);
  return lines.join('\n');
};

/** The old part, with the shop as it stands now (equal but for places). */
const takenOver = (
  old: KeptPart,
  shop: Pick<PartShop, 'brakes' | 'rollers' | 'dies' | 'trials' | 'saws'>,
  sheetAt: (path: readonly string[]) => ReturnType<PartShop['sheet']>,
): KeptPart => {
  const { brakes, rollers, dies, trials, saws } = shop;
  const part = withDies(old.part, dies);
  if ((part.kind !== 'panel' && part.kind !== 'section') || part.sheet === undefined || old.sheetPath === undefined) {
    return { ...old, part: { ...part, brakes, rollers, dies, trials, saws } };
  }
  const value = sheetAt(old.sheetPath) ?? part.sheet.value;
  return { ...old, part: { ...part, brakes, rollers, dies, trials, saws, sheet: { ...part.sheet, value } } };
};

/** Beads and tips with their dies as they stand now. */
const withDies = (part: Part, dies: readonly Die[]): Part => {
  if (part.kind !== 'panel' || (part.beads.length === 0 && part.tips.length === 0)) return part;
  const now = <T extends { readonly die: Sourced<Die> | undefined }>(row: T): T => {
    if (row.die === undefined) return row;
    const { name, file } = row.die.value;
    const value = dies.find((die) => die.name === name && die.file === file) ?? row.die.value;
    return { ...row, die: { ...row.die, value } };
  };
  return { ...part, beads: part.beads.map(now), tips: part.tips.map(now) };
};
