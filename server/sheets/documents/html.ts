/** Blocks as one self-contained web page: nothing is fetched, no script runs, and it prints on any paper. Drawings are SVG within the page. */
import { escapeXml } from '../extent.js';
import type { Page } from '../pages/page.js';
import { pageSvg } from '../pages/svg.js';
import { unbroken } from '../pages/type.js';
import { type Block, chaptersOf, type Figure, type FormCell, type TitleBlock } from './blocks.js';

export interface HtmlOptions {
  /** Written on the one style element, for hosts whose policy wants it. */
  readonly nonce?: string;
  /** False where the document's own blocks say what a title block says. */
  readonly header?: boolean;
  /** The type in base 64, so that fractions look the same everywhere; the reader's own is used without it. */
  readonly font?: { readonly regular: string; readonly bold: string };
}

/** On a dark screen the page is dark and drawings stay on white paper; printed, all is black on white. */
const style = `
:root { color-scheme: light dark; --paper: #ffffff; --ink: #000000; --quiet: #555555; --tone: #eeeeee; --rule: #777777; }
@media (prefers-color-scheme: dark) { :root { --paper: #1b1d1f; --ink: #e8e8e4; --quiet: #a8aaa6; --tone: #2b2e31; --rule: #7d8084; } }
@media print { :root { color-scheme: light; --paper: #ffffff; --ink: #000000; --quiet: #555555; --tone: #eeeeee; --rule: #777777; } }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 200mm; padding: 10mm; background: var(--paper); color: var(--ink); font: 10.5pt/1.4 'Planish Sheet', 'DejaVu Sans', 'Liberation Sans', Arial, sans-serif; }
header.block { border: 0.5mm solid var(--ink); display: flex; flex-wrap: wrap; margin-bottom: 8mm; }
header.block div { flex: 1 1 28mm; border-right: 0.25mm solid var(--ink); padding: 1mm 2mm; min-height: 11mm; }
header.block div:last-child { border-right: 0; }
header.block small { display: block; color: var(--quiet); font-size: 7pt; }
h1 { font-size: 18pt; border-bottom: 0.5mm solid var(--ink); margin: 10mm 0 3mm; padding-bottom: 1mm; }
h2 { font-size: 13pt; margin: 7mm 0 2mm; }
h3 { font-size: 10.5pt; margin: 5mm 0 1.5mm; }
p { margin: 0 0 2mm; }
table { border-collapse: collapse; width: 100%; margin: 0 0 4mm; font-size: 9pt; }
th { text-align: left; background: var(--tone); border-bottom: 0.5mm solid var(--ink); padding: 1mm 1.5mm; vertical-align: bottom; }
td { border-bottom: 0.2mm solid var(--rule); padding: 0.8mm 1.5mm; vertical-align: top; white-space: pre-line; }
td.right, th.right { text-align: right; }
td.middle, th.middle { text-align: center; }
td.bold, tr.group td { font-weight: bold; }
td.tick { width: 7mm; }
ul.tick { list-style: none; padding-left: 0; }
ul.tick li { padding-left: 8mm; text-indent: -8mm; }
input[type='checkbox'] { margin: 0 2mm 0 0; vertical-align: middle; }
dl { display: grid; grid-template-columns: minmax(min-content, var(--names)) 1fr; gap: 0.5mm 2mm; margin: 0 0 4mm; }
dt { color: var(--quiet); }
dd { margin: 0; font-weight: bold; }
.figures { display: flex; flex-wrap: wrap; gap: 5mm; margin: 2mm 0 4mm; align-items: flex-end; }
figure { margin: 0; max-width: 100%; }
figure svg { display: block; max-width: 100%; height: auto; background: #ffffff; }
figcaption { font-size: 8.5pt; color: var(--quiet); padding-top: 1mm; }
.caution { border: 0.5mm solid var(--ink); padding: 2mm 4mm; margin: 0 0 4mm; break-inside: avoid; }
.caution strong { display: block; margin-bottom: 1mm; }
.caution ul { margin: 0; padding-left: 5mm; }
.blank { border-bottom: 0.25mm solid var(--ink); padding-top: 5mm; margin-right: 25%; }
table.form { margin-bottom: 0; table-layout: fixed; }
table.form + table.form { margin-top: -0.25mm; }
table.form + :not(table.form) { margin-top: 4mm; }
table.form td { border: 0.25mm solid var(--ink); height: 11mm; font-weight: bold; }
table.form small { display: block; color: var(--quiet); font-size: 7pt; font-weight: normal; }
.side { display: flex; flex-wrap: wrap; gap: 6mm; margin: 2mm 0 4mm; break-inside: avoid; }
.side > div { min-width: 0; }
.columns { column-gap: 6mm; margin: 0 0 4mm; }
.columns.count_2 { column-count: 2; column-width: 75mm; }
.columns > :first-child { margin-top: 0; }
.card { border-bottom: 0.2mm solid var(--rule); padding: 0 0 2mm; margin: 0 0 3mm; break-inside: avoid; font-size: 9.5pt; }
.card .pictures { display: flex; gap: 3mm; align-items: flex-end; margin-bottom: 1.5mm; }
.card .pictures figure { flex: 0 1 auto; }
.card ul { list-style: '– '; margin: 1mm 0 0; padding-left: 4mm; }
pre { background: var(--tone); padding: 2mm 3mm; margin: 0 0 4mm; font: inherit; font-size: 9pt; white-space: pre-wrap; break-inside: avoid; }
ol.contents { list-style: none; padding-left: 0; columns: 2 75mm; }
ol.contents a { color: inherit; }
h1, h2, h3, h2 + p, h3 + p { break-after: avoid; }
th, pre { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
tr, figure, section { break-inside: avoid; }
.page { break-before: page; }
@media (max-width: 700px) { body { padding: 4mm; } table:not(.form) { display: block; overflow-x: auto; } .side > div { flex-basis: 100% !important; } }
@page { margin: 12mm; }
@media print { body { padding: 0; max-width: none; } }
`;

export const documentHtml = (blocks: readonly Block[], title: TitleBlock, options: HtmlOptions = {}): string => {
  const nonce = options.nonce === undefined ? '' : ` nonce="${escapeXml(options.nonce)}"`;
  const face = (weight: string, data: string): string =>
    `@font-face { font-family: 'Planish Sheet'; font-weight: ${weight}; src: url(data:font/ttf;base64,${data}) format('truetype'); }\n`;
  const fonts = options.font === undefined ? '' : face('normal', options.font.regular) + face('bold', options.font.bold);
  const fields: readonly (readonly [string, string | undefined])[] = [
    ['Legal owner', title.owner],
    ['Title', title.title],
    ['Document type', title.documentType],
    ['Identification number', title.identification],
    ['Date of issue', title.date],
    ['Created by', title.creator],
    ['Approved by', title.approver],
    ['Revision index', title.revision],
  ];
  let figures = 0;
  let chapters = 0;
  const titles = chaptersOf(blocks);
  const ids: Ids = { figure: () => `f${figures++}`, chapter: () => `chapter-${++chapters}`, titles };
  const body = blocks.map((block) => blockHtml(block, ids)).join('\n');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeXml(title.title)}</title>
<style${nonce}>${fonts}${style}</style>
</head>
<body>
${options.header === false ? '' : `<header class="block">${fields.map(([name, value]) => `<div><small>${name}</small>${escapeXml(value ?? '')}</div>`).join('')}</header>`}
${body}
</body>
</html>
`;
};

interface Ids {
  readonly figure: () => string;
  readonly chapter: () => string;
  /** Headings of the first level, in order. */
  readonly titles: readonly string[];
}

const blockHtml = (block: Block, ids: Ids): string => {
  switch (block.kind) {
    case 'heading':
      if (block.level === 1) return `<h1 id="${ids.chapter()}">${escapeXml(block.text)}</h1>`;
      return `<h${block.level}>${escapeXml(block.text)}</h${block.level}>`;
    case 'paragraph':
      return `<p${block.size !== undefined && block.size > 5 ? ` style="font-size: ${block.size}mm"` : ''}>${block.bold === true ? `<b>${escapeXml(block.text)}</b>` : escapeXml(block.text)}</p>`;
    case 'list': {
      const tag = block.mark === 'number' ? 'ol' : 'ul';
      const box = block.mark === 'tick' ? '<input type="checkbox">' : '';
      const items = block.items.map((item) => `<li>${box}${escapeXml(item)}</li>`).join('');
      return `<${tag}${block.mark === 'tick' ? ' class="tick"' : ''}>${items}</${tag}>`;
    }
    case 'table':
      return tableHtml(block);
    case 'figures':
      return `<div class="figures">${block.figures.map((figure) => figureHtml(figure, ids.figure())).join('')}</div>`;
    case 'caution':
      return `<div class="caution" role="note"><strong>⚠ ${escapeXml(block.title)}</strong><ul>${block.items.map((item) => `<li>${escapeXml(item)}</li>`).join('')}</ul></div>`;
    case 'blanks':
      return block.fields.map((field) => `<div class="blank">${escapeXml(field)}</div>`).join('');
    case 'fields':
      return `<dl style="--names: ${block.names ?? 48}mm">${block.rows.map(([name, value]) => `<dt>${escapeXml(name)}</dt><dd>${escapeXml(value)}</dd>`).join('')}</dl>`;
    case 'form':
      return block.rows.map(formHtml).join('');
    case 'card': {
      const pictures = block.figures.map((figure) => figureHtml(figure, ids.figure())).join('');
      const box = block.tick === true ? '<input type="checkbox" aria-label="done">' : '';
      const lines = block.lines.map((line) => `<li>${escapeXml(line)}</li>`).join('');
      return `<div class="card"><div class="pictures">${pictures}</div>${box}<b>${escapeXml(block.title)}</b><ul>${lines}</ul></div>`;
    }
    case 'side': {
      const parts = block.parts.map(
        ({ share, blocks }) =>
          `<div style="flex: ${share} 1 ${Math.round(share * 60)}mm">${blocks.map((each) => blockHtml(each, ids)).join('')}</div>`,
      );
      return `<div class="side">${parts.join('')}</div>`;
    }
    case 'columns':
      return `<div class="columns count_${block.count}">${block.blocks.map((each) => blockHtml(each, ids)).join('\n')}</div>`;
    case 'typed':
      return `<pre>${escapeXml(block.text)}</pre>`;
    case 'kept':
      return `<section>${block.blocks.map((each) => blockHtml(each, ids)).join('\n')}</section>`;
    case 'contents':
      return `<ol class="contents">${ids.titles.map((text, i) => `<li><a href="#chapter-${i + 1}">${escapeXml(text)}</a></li>`).join('')}</ol>`;
    case 'gap':
      return '';
    case 'new page':
      return block.unless === undefined ? '<div class="page"></div>' : '';
  }
};

const tableHtml = (block: Extract<Block, { kind: 'table' }>): string => {
  const classOf = (index: number, bold: boolean): string => {
    const column = block.columns[index];
    const names = [
      column?.align === undefined || column.align === 'left' ? '' : column.align,
      bold && column?.bold === true ? 'bold' : '',
    ].filter(Boolean);
    return names.length === 0 ? '' : ` class="${names.join(' ')}"`;
  };
  const head = block.columns.map(({ title }, index) => `<th${classOf(index, false)}>${escapeXml(title)}</th>`).join('');
  const rows = block.rows.map((row, index) => {
    const group = block.groups?.includes(index) === true;
    const tick = block.tick === true ? `<td class="tick">${group ? '' : '<input type="checkbox" aria-label="done">'}</td>` : '';
    const cells = block.columns.map((_, column) => `<td${classOf(column, true)}>${escapeXml(unbroken(row[column] ?? ''))}</td>`).join('');
    return `<tr${group ? ' class="group"' : ''}>${tick}${cells}</tr>`;
  });
  return `<table><thead><tr>${block.tick === true ? '<th></th>' : ''}${head}</tr></thead><tbody>${rows.join('')}</tbody></table>`;
};

const formHtml = (row: readonly FormCell[]): string => {
  const whole = row.reduce((sum, { share = 1 }) => sum + share, 0);
  const cells = row.map(
    ({ name, value = '', share = 1 }) =>
      `<td style="width: ${((share / whole) * 100).toFixed(2)}%"><small>${escapeXml(name)}</small>${escapeXml(value)}</td>`,
  );
  return `<table class="form"><tr>${cells.join('')}</tr></table>`;
};

const figureHtml = (figure: Figure, id: string): string => {
  const page: Page = { width: figure.width, height: figure.height, marks: figure.marks, title: figure.words };
  const svg = pageSvg(page, { declaration: false, shown: `${figure.width}mm`, prefix: id });
  return `<figure>${svg}${figure.caption === undefined ? '' : `<figcaption>${escapeXml(figure.caption)}</figcaption>`}</figure>`;
};
