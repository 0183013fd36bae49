import { describe, expect, it } from 'vitest';
import { homeUnit } from '../../server/model/dimension.js';
import { nodeFiles, projectPath } from '../../server/node-files.js';
import { createProject } from '../../server/project.js';
import { boxOfText, drawBlank, layOut, type Pictured, picture } from '../../server/sheets/index.js';
import { spread } from '../../server/sheets/layout.js';
import { tray, trayPart } from './tray.js';

const good: Pictured = { part: trayPart, blank: { blank: tray, findings: [] }, lastGood: undefined };
const inches = { unit: homeUnit('inch'), denominator: 64 };
const metric = { unit: homeUnit('millimetre') };

/** Ends of an SVG path's moves, as drawn. */
const pathEnds = (data: string): readonly (readonly [number, number])[] =>
  [...data.matchAll(/([MLA])([^MLAZ]*)/g)].map((match) => {
    const numbers = (match[2] ?? '').trim().split(/\s+/).map(Number);
    return [numbers[numbers.length - 2] ?? Number.NaN, numbers[numbers.length - 1] ?? Number.NaN];
  });

describe('the picture of a blank', () => {
  it('turns y over: every corner of the outline stands where the blank has it, up on the screen', () => {
    const data = /<path class="cut" [^>]*d="([^"]+)"/.exec(picture(good, metric).svg)?.[1] ?? '';
    const ends = pathEnds(data);
    const last = tray.outline[tray.outline.length - 1];
    expect(ends[0]).toEqual([last?.to.x, 0]);
    expect(ends.slice(1).map(([x, y]) => [x, y === 0 ? 0 : -y])).toEqual(tray.outline.map((move) => [move.to.x, move.to.y]));
  });

  it('keeps a round hole’s size clear of its centre mark', () => {
    const { spotLabels, strokes } = drawBlank(trayPart, tray, metric);
    const round = spotLabels.filter((label) => tray.cutouts.some((cut) => cut.circle !== undefined && label.feature === `cut:${cut.id}`));
    expect(round.length).toBeGreaterThan(0);
    for (const label of round) {
      const tips = strokes.flatMap(({ layer, feature, geometry }) =>
        layer === 'mark' && feature === label.feature && geometry.kind === 'line'
          ? [Math.hypot(geometry.to.x - label.at.x, geometry.to.y - label.at.y)]
          : [],
      );
      expect(label.clear).toBeGreaterThanOrEqual(Math.max(...tips));
    }
  });

  it('carries no inline style, no colour and no script', () => {
    const { svg } = picture(good, inches);
    expect(svg).not.toMatch(/style=|<style|fill=|stroke=|<script|on[a-z]+=|href/);
  });

  it('gives every bend, hole and relief its id, its words and the place where it is written', () => {
    const { svg, features } = picture(good, metric);
    for (const bend of tray.bends) {
      expect(svg).toContain(`data-id="bend:${bend.id}"`);
      expect(features).toContainEqual({ id: `bend:${bend.id}`, span: bend.span });
    }
    for (const cut of tray.cutouts) expect(features).toContainEqual({ id: `cut:${cut.id}`, span: cut.span });
    expect(svg).toContain('<title>top.1: turn down 90°, inside radius 1.5, allowance 3.00 mm by K 0.42 (plane geometry)</title>');
    for (const id of [...svg.matchAll(/data-id="([^"]+)"/g)].map((match) => match[1]))
      expect(features.map((each) => each.id)).toContain(id);
  });

  it('lets no text become markup', () => {
    const sly = { ...trayPart, name: '<img src=x onerror="1">&\u0007' };
    const { svg } = picture({ ...good, part: sly }, metric);
    expect(svg).not.toContain('<img');
    expect(svg).toContain('&lt;img src=x onerror=&quot;1&quot;&gt;&amp;, panel');
  });

  it('measures running dimensions from the lower left corner, each rounded once from its exact place', () => {
    const { running } = drawBlank(trayPart, tray, metric);
    expect(running.map(({ axis, at, text }) => [axis, at, text])).toEqual([
      ['y', 25, '25'],
      ['y', 133, '133'],
      ['y', 152, '152'],
      ['x', 20, '20'],
      ['x', 320, '320'],
    ]);
  });

  it('says how the part lies in one line', () => {
    expect(picture(good, metric).title).toBe('tray, panel, crs_12 1.2 mm, blank 340 × 165 mm, 512 g');
    expect(picture(good, inches).title).toBe('tray, panel, crs_12 0.047 in, blank 13 25/64\u2212 × 6 1/2\u2212 in, 1.13 lb');
  });

  it('shows the last good blank, marked stale, while the text does not lay out', () => {
    const broken: Pictured = { part: { ...trayPart, broken: true }, blank: { blank: undefined, findings: [] }, lastGood: tray };
    const shown = picture(broken, metric);
    expect(shown.stale).toBe(true);
    expect(shown.svg).toContain('class="planish_picture stale"');
    expect(picture(good, metric).stale).toBe(false);
  });

  it('has words where there is nothing to draw', () => {
    const nothing: Pictured = { part: { ...trayPart, broken: true }, blank: { blank: undefined, findings: [] }, lastGood: undefined };
    expect(picture(nothing, metric).svg).toContain('not laid out: see the findings');
  });

  it('lights up what a finding names', () => {
    const finding = {
      file: trayPart.file,
      span: { start: 0, end: 1 },
      rule: 'bend/overlap',
      severity: 'error',
      message: 'overlap',
      fixes: [],
      features: ['bend:top.1'],
    } as const;
    const { svg } = picture({ ...good, blank: { blank: tray, findings: [finding] } }, metric);
    expect(svg).toContain('class="feature bend has_error" data-id="bend:top.1"');
    expect(svg).not.toContain('class="feature bend has_error" data-id="bend:top.2"');
  });

  it('gives the same text for the same part', () => expect(picture(good, inches).svg).toBe(picture(good, inches).svg));
});

describe('the places of words', () => {
  const crowded = {
    ...tray,
    bends: Array.from({ length: 12 }, (_, index) => {
      const y = 30 + index * 3;
      const model = tray.bends[0];
      if (model === undefined) throw new Error('the tray has bends');
      return { ...model, id: `rib.${index + 1}`, from: { x: 20, y }, to: { x: 320, y } };
    }),
  };

  it.each([
    ['a tray', tray],
    ['bends 3 mm apart', crowded],
  ])('never lie over one another: %s', (_, blank) => {
    for (const options of [inches, metric]) {
      const { texts } = layOut(drawBlank(trayPart, blank, options));
      const boxes = texts.map(boxOfText);
      boxes.forEach((a, i) => {
        boxes.slice(i + 1).forEach((b, j) => {
          const apart = a.max.x <= b.min.x + 1e-9 || b.max.x <= a.min.x + 1e-9 || a.max.y <= b.min.y + 1e-9 || b.max.y <= a.min.y + 1e-9;
          expect(apart, `${texts[i]?.text} over ${texts[i + 1 + j]?.text}`).toBe(true);
        });
      });
      for (const bend of blank.bends) expect(texts.some((text) => text.feature === `bend:${bend.id}` && text.layer === 'label')).toBe(true);
    }
  });

  it('of a hole stand on its own side of a bend', () => {
    const project = createProject({ files: nodeFiles(), root: projectPath('samples') });
    const [bitTray] = project.parts(`${projectPath('samples')}/tool-cabinet/bit-tray.planish`);
    if (bitTray?.blank.blank === undefined) throw new Error('the tray lays out');
    const { blank } = bitTray.blank;
    const handles = blank.cutouts.filter(({ circle }) => circle !== undefined);
    expect(handles).toHaveLength(2);
    for (const height of [4, 5, 6]) {
      const { texts } = layOut(drawBlank(bitTray.part, blank, metric), height);
      const labels = texts.filter(({ text }) => text === '⌀ 22');
      expect(labels.length).toBeGreaterThan(0);
      for (const label of labels) {
        const { min, max } = boxOfText(label);
        // The two bends beside the holes run up the sheet at 40.3 and 220.4.
        expect(max.x < 40.3 || min.x > 220.4, `⌀ 22 in letters of ${height}`).toBe(true);
      }
    }
  });

  it('outside the part, lead to the end of a bend and never along an edge', () => {
    const project = createProject({ files: nodeFiles(), root: projectPath('samples') });
    const [patch] = project.parts(`${projectPath('samples')}/cargo-trike/floor-patch.planish`);
    if (patch?.blank.blank === undefined) throw new Error('the patch lays out');
    const { blank } = patch.blank;
    const { lines } = layOut(drawBlank(patch.part, blank, inches), 8);
    const leaders = lines.filter(({ feature, points }) => feature?.startsWith('bend:') === true && (points.at(-1)?.x ?? 0) > blank.width);
    expect(leaders.map(({ feature }) => feature).sort()).toEqual(['bend:left.1.far', 'bend:right.1.far']);
    for (const { points } of leaders) {
      for (const [i, to] of points.slice(1).entries()) {
        const from = points[i] ?? to;
        const level = Math.abs(from.y - to.y) < 1e-9;
        expect(level && [0, blank.height].some((edge) => Math.abs(edge - to.y) < 1e-6)).toBe(false);
      }
    }
    // Side by side, the two do not cross.
    const [left, right] = ['left', 'right'].map(
      (side) => leaders.find(({ feature }) => feature === `bend:${side}.1.far`)?.points.at(-1)?.y ?? 0,
    );
    expect(left).toBeGreaterThan(right ?? 0);
  });

  it('moves numbers apart no more than they need', () => {
    expect(spread([0, 10, 20], 5)).toEqual([0, 10, 20]);
    expect(spread([0, 0], 4)).toEqual([-2, 2]);
    expect(spread([0, 1, 50], 4)).toEqual([-1.5, 2.5, 50]);
  });
});
