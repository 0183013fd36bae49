/**
 * Pages as PDF. Lines and arcs are written at full precision (arcs as cubic curves in pieces of at most 30°, within 1e-6 of the radius), words in the
 * embedded type. The library that writes PDF is loaded on first use.
 */
import type { Move, Point } from '../../shape/path.js';
import { sweepOf } from '../extent.js';
import { type Carry, carryPoint, carryRun, stay, within } from './carry.js';
import type { DocumentFacts, Fonts, Mark, Page, Run } from './page.js';

/** Points of a PDF (1/72 in) in a millimetre. Source: ISO 32000-1, 8.3.2.3, default user space. */
const points = 72 / 25.4;
const piece = Math.PI / 6;

type Writer = PDFKit.PDFDocument;

/**
 * @param facts the date is written into the file as the day it was made; nothing else varies between runs
 * @returns the bytes of the file
 */
export const writePdf = async (pages: readonly Page[], facts: DocumentFacts, fonts: Fonts): Promise<Uint8Array> => {
  const { default: PdfDocument } = await import('pdfkit');
  const writer = new PdfDocument({
    autoFirstPage: false,
    compress: true,
    margin: 0,
    // None of its own, so that the library never goes looking for one; opened here, ours would be opened anew for every word.
    font: null as unknown as string,
    pdfVersion: '1.7',
    lang: 'en',
    displayTitle: true,
    info: {
      Title: facts.title,
      Creator: 'Planish',
      Producer: 'Planish',
      CreationDate: facts.date,
      ModDate: facts.date,
      ...(facts.subject === undefined ? {} : { Subject: facts.subject }),
      ...(facts.author === undefined ? {} : { Author: facts.author }),
    },
  });
  writer.registerFont('regular', fonts.regular);
  writer.registerFont('bold', fonts.bold);
  keepSize(writer);
  const chunks: Uint8Array[] = [];
  const done = new Promise<void>((resolve, reject) => {
    writer.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    writer.on('end', () => resolve());
    writer.on('error', reject);
  });
  for (const page of pages) {
    writer.addPage({ size: [page.width * points, page.height * points], margin: 0 });
    writer.outline.addItem(page.title);
    drawMarks(writer, page, page.marks, stay);
  }
  writer.end();
  await done;
  const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
};

/** Asks the reader to print at 100 %, not fitted to the paper: what a print dialog offers first. Source: ISO 32000-1, 12.2, table 150. */
const keepSize = (writer: Writer): void => {
  const { _root: root } = writer as unknown as {
    readonly _root: { readonly data: { readonly ViewerPreferences: { readonly data: Record<string, unknown> } } };
  };
  root.data.ViewerPreferences.data.PrintScaling = 'None';
};

const drawMarks = (writer: Writer, page: Page, marks: readonly Mark[], carry: Carry): void => {
  for (const mark of marks) drawMark(writer, page, mark, carry);
};

/** From millimetres with y up to the writer's points with y down. */
const place = (page: Page, p: Point): readonly [number, number] => [p.x * points, (page.height - p.y) * points];

const drawMark = (writer: Writer, page: Page, mark: Mark, carry: Carry): void => {
  switch (mark.kind) {
    case 'path': {
      for (const run of mark.runs) traceRun(writer, page, carryRun(carry, run));
      const { ink, fill } = mark;
      if (ink !== undefined) {
        writer
          .lineWidth(ink.width * points)
          .lineCap('butt')
          .lineJoin('miter');
        if (ink.dash === undefined || ink.dash.length === 0) writer.undash();
        else dash(writer, ink.dash);
      }
      const colour = ink?.colour ?? '#000000';
      if (ink !== undefined && fill !== undefined) writer.fillAndStroke(fill, colour, 'even-odd');
      else if (ink !== undefined) writer.stroke(colour);
      else if (fill !== undefined) writer.fill(fill, 'even-odd');
      return;
    }
    case 'text':
      drawText(writer, page, mark, carry);
      return;
    case 'placed': {
      const inner = within(carry, mark);
      writer.save();
      if (mark.clip !== undefined) {
        const corners = [mark.clip.min, mark.clip.max].map((corner) => place(page, carryPoint(carry, corner)));
        const [[x0, y0], [x1, y1]] = corners as [readonly [number, number], readonly [number, number]];
        writer.rect(Math.min(x0, x1), Math.min(y0, y1), Math.abs(x1 - x0), Math.abs(y1 - y0)).clip();
      }
      drawMarks(writer, page, mark.marks, inner);
      writer.restore();
      return;
    }
  }
};

/** The library's own `dash` takes a pattern of points. */
const dash = (writer: Writer, lengths: readonly number[]): void => {
  const pattern = lengths.map((length) => length * points);
  writer.dash(pattern as unknown as number, {});
};

const traceRun = (writer: Writer, page: Page, run: Run): void => {
  writer.moveTo(...place(page, run.start));
  let from = run.start;
  for (const move of run.moves) {
    if (move.kind === 'line') writer.lineTo(...place(page, move.to));
    else traceArc(writer, page, from, move);
    from = move.to;
  }
  if (run.closed) writer.closePath();
};

const traceArc = (writer: Writer, page: Page, from: Point, move: Extract<Move, { kind: 'arc' }>): void => {
  const { centre, to } = move;
  const radius = Math.hypot(from.x - centre.x, from.y - centre.y);
  const sweep = sweepOf(from, move) * (move.turn === 'left' ? 1 : -1);
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / piece - 1e-9));
  const step = sweep / count;
  const handle = (4 / 3) * Math.tan(step / 4) * radius;
  const begin = Math.atan2(from.y - centre.y, from.x - centre.x);
  for (let i = 0; i < count; i++) {
    const [a, b] = [begin + i * step, begin + (i + 1) * step];
    const end = i === count - 1 ? to : { x: centre.x + radius * Math.cos(b), y: centre.y + radius * Math.sin(b) };
    const start = i === 0 ? from : { x: centre.x + radius * Math.cos(a), y: centre.y + radius * Math.sin(a) };
    writer.bezierCurveTo(
      ...place(page, { x: start.x - handle * Math.sin(a), y: start.y + handle * Math.cos(a) }),
      ...place(page, { x: end.x + handle * Math.sin(b), y: end.y - handle * Math.cos(b) }),
      ...place(page, end),
    );
  }
};

const drawText = (writer: Writer, page: Page, mark: Extract<Mark, { kind: 'text' }>, carry: Carry): void => {
  if (mark.text === '') return;
  const [x, y] = place(page, carryPoint(carry, mark.at));
  const turn = (mark.turn ?? 0) + Math.atan2(carry.sin, carry.cos);
  writer.font(mark.bold === true ? 'bold' : 'regular').fontSize(mark.size * carry.scale * points);
  const width = writer.widthOfString(mark.text);
  const left = mark.anchor === 'middle' ? -width / 2 : mark.anchor === 'end' ? -width : 0;
  writer.save();
  writer.fillColor(mark.colour ?? '#000000');
  writer.translate(x, y).rotate((-turn * 180) / Math.PI);
  writer.text(mark.text, left, 0, { lineBreak: false, baseline: 'alphabetic' });
  writer.restore();
};
