/** Cuts once the whole part is read: their ids, what they lie on, and their copies in mirrors. */
import type { Span, Statement } from '../../grammar/syntax.js';
import { newNameField } from './arguments.js';
import { type MirroredFace, mirrored } from './opposite.js';
import type { Cut } from './part.js';
import type { Mirror, PartWork, PendingCut, PendingPlace } from './work.js';

export interface Faces {
  /** A flange's or leg's id by a path as written; undefined when there is none, with the reason said. */
  readonly lies: (path: readonly string[], span: Span) => string | undefined;
  /** What a cut lies on that names nothing: undefined for a panel's base. */
  readonly base: string | undefined;
  readonly mirroredFace?: (id: string, mirror: Mirror) => MirroredFace;
}

/** Cuts with their ids and what they lie on, in the order they were written. */
export const settleCuts = (work: PartWork, faces: Faces): readonly Cut[] => {
  const total = countNames(work);
  const counted = new Map<string, number>();
  const settled = new Map<object, Cut>();
  const resolved = new Map<PendingPlace, string | undefined>();
  const faceOf = (place: PendingPlace): string | undefined => {
    if (!resolved.has(place)) resolved.set(place, faces.lies(place.path, place.span));
    return resolved.get(place);
  };
  for (const cut of work.cuts) {
    const made =
      cut.mirror === undefined ? written(cut, total, counted, faces, faceOf, work) : copied(cut, cut.mirror, settled, faces, work);
    if (made === 'itself') continue;
    if (made === undefined) work.fail();
    else settled.set(cut.self, made);
  }
  return [...settled.values()];
};

/** How many there are of each name, copies in mirrors not counted; a name given twice is reported. */
const countNames = (work: PartWork): ReadonlyMap<string, number> => {
  const total = new Map<string, number>();
  const first = new Map<string, Statement>();
  for (const cut of work.cuts) {
    if (cut.mirror !== undefined) continue;
    total.set(cut.base, (total.get(cut.base) ?? 0) + 1);
    const statement = first.get(cut.base);
    if (statement === undefined) first.set(cut.base, cut.statement);
    else if (cut.named && statement !== cut.statement) {
      const name = newNameField(cut.statement, 'as');
      if (name === undefined) continue;
      work.reading.sink.report(
        name.span,
        'name/repeated',
        `${name.name} already names another feature of this part. Give this one another name.`,
      );
    }
  }
  return total;
};

const written = (
  cut: PendingCut,
  total: ReadonlyMap<string, number>,
  counted: Map<string, number>,
  faces: Faces,
  faceOf: (place: PendingPlace) => string | undefined,
  work: PartWork,
): Cut | undefined => {
  const n = (counted.get(cut.base) ?? 0) + 1;
  counted.set(cut.base, n);
  const on = cut.on === undefined ? faces.base : 'id' in cut.on ? cut.on.id : faceOf(cut.on);
  if (on === undefined && cut.on !== undefined) return undefined;
  const base = faces.base ?? 'base';
  const { through: asked } = cut;
  const through = asked === undefined ? undefined : asked.path.join('.') === 'base' ? base : faceOf(asked);
  if (asked !== undefined) {
    if (through === undefined) return undefined;
    if (through === (on ?? base)) {
      work.reading.sink.report(
        asked.span,
        'hole/through-its-own-face',
        `This hole lies on ${through} itself. Name the face that it goes on through, or leave the words out.`,
      );
      return undefined;
    }
  }
  const { shape, at, turned, span, sizeSpan, atSpan, dimple } = cut;
  return {
    id: cut.named && total.get(cut.base) === 1 ? cut.base : `${cut.base}.${n}`,
    on,
    shape,
    at,
    turned,
    ...(through === undefined ? {} : { through }),
    ...(dimple === undefined ? {} : { dimple }),
    span,
    sizeSpan,
    atSpan,
  };
};

/** The copy of a cut in a mirror, from how that cut came to lie. */
const copied = (
  cut: PendingCut,
  mirror: NonNullable<PendingCut['mirror']>,
  settled: ReadonlyMap<object, Cut>,
  faces: Faces,
  work: PartWork,
): Cut | 'itself' | undefined => {
  const from = settled.get(mirror.of);
  if (from === undefined) return undefined;
  const id = `${from.id}.opposite`;
  const seen = (face: string): string | undefined => {
    const there: MirroredFace = faces.mirroredFace?.(face, mirror) ?? { kind: 'none', why: 'this part has no mirror.' };
    if (there.kind === 'along') return face;
    if (there.kind === 'other') return there.id;
    const { word } = cut.statement;
    work.reading.sink.report(
      cut.statement.fields.on?.span ?? word.span,
      'shape/no-flange-opposite',
      `This ${word.name} can’t be mirrored: ${there.why}`,
    );
    return undefined;
  };
  const on = from.on === undefined ? undefined : seen(from.on);
  if (from.on !== undefined && on === undefined) return undefined;
  const through = from.through === undefined || from.through === 'base' ? from.through : seen(from.through);
  if (from.through !== undefined && through === undefined) return undefined;
  const further = through === undefined ? {} : { through };
  // On a flange the mirror stands across its own x, which runs along the edge; a flange that faces it takes the feature at the same place.
  if (on !== undefined && on !== from.on) return { ...from, ...further, id, on };
  const across = on === undefined ? mirror.across : 'x';
  if (isItsOwnMirror(from, { across, at: mirror.at })) {
    const { fields, word } = cut.statement;
    work.reading.sink.report(
      fields.at?.span ?? word.span,
      'shape/on-the-mirror-line',
      `This ${word.name} lies on the mirror line itself, so its copy would fall on it again and is left out. Write it outside the braces.`,
      { severity: 'warning' },
    );
    return 'itself';
  }
  return { ...from, ...mirrored(from, { across, at: mirror.at }), ...further, id, on };
};

const isItsOwnMirror = ({ shape, at, turned }: Cut, mirror: Mirror): boolean =>
  Math.abs(at[mirror.across] - mirror.at) < 0.001 &&
  (shape.kind === 'hole' || (shape.kind !== 'drawn' && Math.abs(Math.sin(2 * turned)) < 1e-9));
