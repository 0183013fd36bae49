/** Where a bend lies on the flat blank: those made before are plain, this one is bold, what lies under the nose is toned. */
import type { BendingModel, BendingPlace } from '../../../server/lsp/protocol.js';

const space = 'http://www.w3.org/2000/svg';
const path = (d: string, classes: string): SVGPathElement => {
  const element = document.createElementNS(space, 'path');
  element.setAttribute('d', d);
  element.setAttribute('class', classes);
  return element;
};
const line = ([x0 = 0, y0 = 0, x1 = 0, y1 = 0]: readonly number[], classes: string): SVGLineElement => {
  const element = document.createElementNS(space, 'line');
  for (const [key, value] of Object.entries({ x1: x0, y1: -y0, x2: x1, y2: -y1 })) element.setAttribute(key, String(value));
  element.setAttribute('class', classes);
  return element;
};

export const drawPlace = (blank: BendingModel['blank'], place: BendingPlace): SVGSVGElement => {
  const svg = document.createElementNS(space, 'svg');
  svg.setAttribute('class', 'bend_place');
  const margin = Math.max(blank.width, blank.height) * 0.03;
  svg.setAttribute('viewBox', [-margin, -blank.height - margin, blank.width + 2 * margin, blank.height + 2 * margin].join(' '));
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', 'Where the bend lies on the blank, its face toward you; what lies under the nose is toned.');
  const held = blank.faces.find(({ id }) => id === place.held);
  svg.append(
    path(blank.outline, 'blank'),
    ...(held === undefined ? [] : [path(held.path, 'under_nose')]),
    ...blank.bends.map(({ id, line: own }) => {
      const kind = place.bends.includes(id) ? 'this' : place.done.includes(id) ? 'done' : 'to_come';
      const drawn = line(own, `bend ${kind}`);
      drawn.dataset.id = id;
      return drawn;
    }),
    ...(place.line === undefined ? [] : [line(place.line, 'scribed')]),
    path(blank.outline, 'edge'),
  );
  return svg;
};
