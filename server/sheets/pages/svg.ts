/** A page as SVG: one user unit is one millimetre, and the document says so. */
import type { Point } from '../../shape/path.js';
import { escapeXml, coordinate as n, sweepOf } from '../extent.js';
import { type Carry, carryPoint, carryRun, stay, within } from './carry.js';
import type { Mark, Page, Run } from './page.js';

const family = 'Planish Sheet, DejaVu Sans, Liberation Sans, Arial, sans-serif';

export interface SvgOptions {
  /** Written before the root; left out for pages that stand inside another document. */
  readonly declaration?: boolean;
  /** Width shown, when not the true one: any CSS length. */
  readonly shown?: string;
  /** Paper white behind it all; yes unless said otherwise. */
  readonly paper?: boolean;
  /** Begins ids that must be unique in the document the page stands in. */
  readonly prefix?: string;
  /** Where the page's lower left corner lies in the coordinates of the document, y up; its upper left at (0, 0) unless given. */
  readonly corner?: Point;
  /** Both cuts of the type in base 64, put into the document so that it reads alike wherever it is opened. */
  readonly font?: { readonly regular: string; readonly bold: string };
}

interface Writing {
  readonly corner: Point;
  readonly prefix: string;
  clips: number;
}

const typeface = ({ regular, bold }: { readonly regular: string; readonly bold: string }): string => {
  const face = (weight: string, data: string): string =>
    `@font-face { font-family: 'Planish Sheet'; font-weight: ${weight}; src: url(data:font/ttf;base64,${data}) format('truetype'); }`;
  return `<style>${face('normal', regular)}\n${face('bold', bold)}</style>`;
};

export const pageSvg = (page: Page, options: SvgOptions = {}): string => {
  const writing: Writing = { corner: options.corner ?? { x: 0, y: 0 - page.height }, prefix: options.prefix ?? 'c', clips: 0 };
  const [left, top] = [n(writing.corner.x), n(0 - page.height - writing.corner.y)];
  const at = left === '0' && top === '0' ? '' : `x="${left}" y="${top}" `;
  const size = options.shown === undefined ? `width="${n(page.width)}mm" height="${n(page.height)}mm"` : `width="${options.shown}"`;
  return [
    ...(options.declaration === false ? [] : ['<?xml version="1.0" encoding="UTF-8"?>']),
    `<svg xmlns="http://www.w3.org/2000/svg" ${size} viewBox="${left} ${top} ${n(page.width)} ${n(page.height)}" role="img" aria-label="${escapeXml(page.title)}" font-family="${family}">`,
    `<title>${escapeXml(page.title)}</title>`,
    ...(options.font === undefined ? [] : [typeface(options.font)]),
    ...(options.paper === false ? [] : [`<rect ${at}width="${n(page.width)}" height="${n(page.height)}" fill="#ffffff"/>`]),
    ...page.marks.map((mark) => markup(mark, stay, writing)),
    '</svg>',
    '',
  ].join('\n');
};

const markup = (mark: Mark, carry: Carry, writing: Writing): string => {
  switch (mark.kind) {
    case 'path': {
      const data = mark.runs.map((run) => runData(carryRun(carry, run), writing.corner)).join('');
      const { ink } = mark;
      const stroke =
        ink === undefined
          ? ''
          : ` stroke="${escapeXml(ink.colour ?? '#000000')}" stroke-width="${n(ink.width)}"${ink.dash === undefined || ink.dash.length === 0 ? '' : ` stroke-dasharray="${ink.dash.map(n).join(' ')}"`}`;
      return `<path ${mark.name === undefined ? '' : `class="${escapeXml(mark.name)}" `}d="${data}" fill="${escapeXml(mark.fill ?? 'none')}"${mark.fill === undefined ? '' : ' fill-rule="evenodd"'}${stroke}/>`;
    }
    case 'text': {
      const at = carryPoint(carry, mark.at);
      const turn = (mark.turn ?? 0) + Math.atan2(carry.sin, carry.cos);
      const [x, y] = [n(at.x + writing.corner.x), n(0 - at.y - writing.corner.y)];
      const turned = Math.abs(turn) < 1e-9 ? '' : ` transform="rotate(${n((-turn * 180) / Math.PI)} ${x} ${y})"`;
      const anchor = mark.anchor === undefined || mark.anchor === 'start' ? '' : ` text-anchor="${mark.anchor}"`;
      const weight = mark.bold === true ? ' font-weight="bold"' : '';
      return `<text x="${x}" y="${y}" font-size="${n(mark.size * carry.scale)}" fill="${escapeXml(mark.colour ?? '#000000')}"${anchor}${weight}${turned}>${escapeXml(mark.text)}</text>`;
    }
    case 'placed': {
      const inner = mark.marks.map((each) => markup(each, within(carry, mark), writing)).join('\n');
      if (mark.clip === undefined) return `<g>${inner}</g>`;
      const id = `${writing.prefix}${writing.clips++}`;
      const [a, b] = [carryPoint(carry, mark.clip.min), carryPoint(carry, mark.clip.max)];
      const box = `<rect x="${n(Math.min(a.x, b.x) + writing.corner.x)}" y="${n(0 - Math.max(a.y, b.y) - writing.corner.y)}" width="${n(Math.abs(b.x - a.x))}" height="${n(Math.abs(b.y - a.y))}"/>`;
      return `<clipPath id="${escapeXml(id)}">${box}</clipPath><g clip-path="url(#${escapeXml(id)})">${inner}</g>`;
    }
  }
};

const runData = (run: Run, corner: Point): string => {
  const at = (p: Point): string => `${n(p.x + corner.x)} ${n(0 - p.y - corner.y)}`;
  let from = run.start;
  let data = `M${at(from)}`;
  for (const move of run.moves) {
    if (move.kind === 'line') data += `L${at(move.to)}`;
    else {
      const { centre } = move;
      const radius = Math.hypot(move.to.x - centre.x, move.to.y - centre.y);
      const flag = move.turn === 'left' ? 0 : 1;
      const sweep = sweepOf(from, move);
      // Arcs over a half turn go in two pieces.
      const halves = sweep > Math.PI - 1e-6 ? 2 : 1;
      const begin = Math.atan2(from.y - centre.y, from.x - centre.x);
      for (let i = 1; i <= halves; i++) {
        const angle = begin + (move.turn === 'left' ? 1 : -1) * ((sweep * i) / halves);
        const to = i === halves ? move.to : { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
        data += `A${n(radius)} ${n(radius)} 0 0 ${flag} ${at(to)}`;
      }
    }
    from = move.to;
  }
  return run.closed ? `${data}Z` : data;
};
