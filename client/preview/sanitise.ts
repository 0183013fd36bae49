/**
 * What may enter the page from a drawing: shapes, text and their places, and nothing that runs, loads or styles.
 * The server escapes what it writes; this is the second lock on the same door, so it lists what is let in and drops the rest.
 */

/** As much of a DOM element as the walk needs; the browser's own elements fit it. */
export interface DrawnElement {
  readonly localName: string;
  readonly namespaceURI: string | null;
  readonly attributes: Iterable<{ readonly name: string; readonly value: string }>;
  readonly children: Iterable<DrawnElement>;
  removeAttribute(name: string): void;
  remove(): void;
}

const SVG_NAMESPACE = 'http://www.w3.org/2000/svg';

const ELEMENTS: ReadonlySet<string> = new Set(
  'svg g path line polyline polygon rect circle ellipse text tspan title desc defs marker clipPath'.split(' '),
);

const ATTRIBUTES: ReadonlySet<string> = new Set(
  (
    'id class role tabindex viewBox preserveAspectRatio width height x y x1 y1 x2 y2 cx cy r rx ry d points dx dy rotate transform pathLength ' +
    'text-anchor dominant-baseline font-size textLength lengthAdjust marker-start marker-end marker-mid markerWidth markerHeight markerUnits ' +
    'refX refY orient clip-path clipPathUnits vector-effect stroke-width fill-rule xml:space xml:lang lang xmlns'
  ).split(' '),
);

export const elementAllowed = (name: string, namespace: string | null): boolean => namespace === SVG_NAMESPACE && ELEMENTS.has(name);

/** A reference may only point within the drawing: `url(#…)`. */
export const attributeAllowed = (name: string, value: string): boolean => {
  if (!(ATTRIBUTES.has(name) || /^data-[a-z][a-z-]*$/.test(name) || /^aria-[a-z]+$/.test(name))) return false;
  return !/url\s*\(/i.test(value) || /^url\(#[A-Za-z_][\w.-]*\)$/.test(value);
};

/** Strips a parsed drawing in place. Returns how many elements and attributes were dropped. */
export const sanitise = (root: DrawnElement): number => {
  let dropped = 0;
  for (const { name, value } of [...root.attributes]) {
    if (attributeAllowed(name, value)) continue;
    root.removeAttribute(name);
    dropped += 1;
  }
  for (const child of [...root.children]) {
    if (elementAllowed(child.localName, child.namespaceURI)) dropped += sanitise(child);
    else {
      child.remove();
      dropped += 1;
    }
  }
  return dropped;
};
