/** How the steps on edges are called: `top.2` by their place, or what `as` gave. */
import type { Statement } from '../../grammar/syntax.js';
import { newNameField, wordField } from './arguments.js';
import type { Direction, EdgeStep } from './part.js';
import type { PartWork } from './work.js';

/** Where flanges may be found by name: `top` (its first), `top.2`, `lip`. */
export interface FlangeIds {
  readonly ids: Map<string, string>;
  /** Steps so far on each edge. */
  readonly counts: Map<string, number>;
  /** What each id was made by: `flange`, `hem`, `double hem`. */
  readonly kinds: Map<string, string>;
  /** The edge of the outline that a step goes back to, and its place there, where it stands on the outline itself. */
  readonly places: Map<string, { readonly edge: string; readonly nth: number }>;
}
export const noFlanges = (): FlangeIds => ({ ids: new Map(), counts: new Map(), kinds: new Map(), places: new Map() });

/** A chain while its block is read. */
export interface GrowingChain {
  readonly name: string;
  readonly prefix: string;
  readonly steps: EdgeStep[];
  /** The way the last flange turned: a hem or a curl goes on turning that way. */
  turning: Direction | undefined;
  /** The hem, curl or tab that ends it: its word. */
  end: string | undefined;
  /** Written from its outermost step inward, as the edge that a section begins with. */
  readonly inward?: boolean;
}

interface NamedStep {
  readonly chain: GrowingChain;
  readonly id: string;
  readonly name: string | undefined;
}

/** The ids of one statement's steps, one on each chain. A name that is taken, or would name several, is reported. */
export const stepIds = (step: Statement, work: PartWork, chains: readonly GrowingChain[], flanges: FlangeIds): readonly NamedStep[] => {
  const name = newNameField(step, 'as');
  if (name !== undefined && chains.length > 1) {
    work.reading.sink.report(
      name.span,
      'name/repeated',
      `${name.name} would name ${chains.length} ${step.word.name}s at once, one on each edge. Give this edge a block of its own, or leave the name out.`,
    );
  }
  return chains.map((chain, i) => {
    const nth = (flanges.counts.get(chain.prefix) ?? 0) + 1;
    flanges.counts.set(chain.prefix, nth);
    const place = `${chain.prefix}.${nth}`;
    const own = name !== undefined && i === 0 ? name.name : undefined;
    if (own !== undefined && flanges.ids.get(own) === own && name !== undefined) {
      work.reading.sink.report(name.span, 'name/repeated', `${own} already names another flange of this part. Give this one another name.`);
    }
    const id = own !== undefined && !flanges.ids.has(own) ? own : place;
    flanges.ids.set(place, id);
    flanges.ids.set(id, id);
    flanges.kinds.set(id, wordField(step, 'style') === 'double' ? `double ${step.word.name}` : step.word.name);
    if (nth === 1) flanges.ids.set(chain.prefix, id);
    if (chain.prefix === chain.name) flanges.places.set(id, { edge: chain.name, nth });
    return { chain, id, name: own };
  });
};
