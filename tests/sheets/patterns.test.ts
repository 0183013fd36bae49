import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import DxfParser from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import type { Blank } from '../../server/blank/types.js';
import { homeUnit } from '../../server/model/dimension.js';
import { nodeFiles, projectPath } from '../../server/node-files.js';
import { readFonts } from '../../server/node-sheets.js';
import { createProject } from '../../server/project.js';
import { type DisplayOptions, patternDxf, patternSvg, readType } from '../../server/sheets/index.js';
import { dxfText } from '../../server/sheets/pattern-dxf.js';
import { tray, trayPart } from './tray.js';

/** A disc with a straight flat: an arc of more than half a turn in the outline, and a round hole. */
const disc: Blank = {
  ...tray,
  outline: [
    { kind: 'arc', to: { x: 20, y: 90 }, centre: { x: 50, y: 50 }, turn: 'left' },
    { kind: 'line', to: { x: 20, y: 10 } },
  ],
  bends: [],
  faces: [],
  reliefs: [],
  cutouts: tray.cutouts.slice(0, 1),
  width: 80,
  height: 100,
};

interface Vertex {
  readonly x: number;
  readonly y: number;
  readonly bulge?: number;
}
interface Entity {
  readonly type: string;
  readonly layer: string;
  readonly shape?: boolean;
  readonly vertices?: readonly Vertex[];
  readonly center?: Vertex;
  readonly radius?: number;
  readonly text?: string;
}

const readBack = (text: string): { readonly header: Record<string, unknown>; readonly entities: readonly Entity[] } => {
  const parsed = new DxfParser().parseSync(text);
  if (parsed === null) throw new Error('the reader gave nothing');
  return { header: parsed.header as Record<string, unknown>, entities: parsed.entities as unknown as readonly Entity[] };
};

/** Centre of the arc from a to b with a bulge: the inverse of what the writer did, from plane geometry. */
const centreOfBulge = (a: Vertex, b: Vertex, bulge: number): Vertex => {
  const away = (1 - bulge * bulge) / (4 * bulge);
  return { x: (a.x + b.x) / 2 - (b.y - a.y) * away, y: (a.y + b.y) / 2 + (b.x - a.x) * away };
};

const expectLoop = (blank: Blank, vertices: readonly Vertex[]): void => {
  expect(vertices).toHaveLength(blank.outline.length);
  blank.outline.forEach((move, index) => {
    const start = vertices[index] as Vertex;
    const end = vertices[(index + 1) % vertices.length] as Vertex;
    expect(Math.hypot(end.x - move.to.x, end.y - move.to.y)).toBeLessThan(1e-6);
    if (move.kind === 'line') {
      expect(start.bulge ?? 0).toBe(0);
      return;
    }
    const centre = centreOfBulge(start, end, start.bulge ?? 0);
    expect(Math.hypot(centre.x - move.centre.x, centre.y - move.centre.y)).toBeLessThan(1e-6);
    expect(Math.sign(start.bulge ?? 0)).toBe(move.turn === 'left' ? 1 : -1);
  });
};

describe('the DXF pattern, read back by dxf-parser', () => {
  it.each([
    ['tray', tray],
    ['disc', disc],
  ])('%s: the outline is the blank to a millionth of a millimetre, arcs as arcs', (_, blank) => {
    const { entities } = readBack(patternDxf(trayPart, blank));
    const outline = entities.filter((each) => each.layer === 'cut');
    expect(outline).toHaveLength(1);
    expect(outline[0]?.type).toBe('POLYLINE');
    expect(outline[0]?.shape).toBe(true);
    expectLoop(blank, outline[0]?.vertices ?? []);
  });

  it('states millimetres, the release and the extent', () => {
    const { header } = readBack(patternDxf(trayPart, tray));
    expect(header.$ACADVER).toBe('AC1009');
    expect(header.$INSUNITS).toBe(4);
    expect(header.$MEASUREMENT).toBe(1);
    expect(header.$EXTMIN).toMatchObject({ x: 0, y: 0 });
    expect(header.$EXTMAX).toMatchObject({ x: 340, y: 165 });
  });

  it('keeps round holes round and bend lines straight, on layers of their own', () => {
    const { entities } = readBack(patternDxf(trayPart, tray));
    const circles = entities.filter((each) => each.type === 'CIRCLE' && each.layer === 'cut_inside');
    expect(circles.map((each) => [each.center?.x, each.center?.y, each.radius])).toEqual([
      [40, 50, 3.5],
      [300, 50, 3.5],
    ]);
    const down = entities.filter((each) => each.layer === 'bend_down');
    expect(down.map((each) => each.vertices?.map(({ x, y }) => [x, y]))).toEqual([
      [
        [320, 133],
        [20, 133],
      ],
      [
        [320, 152],
        [20, 152],
      ],
    ]);
    expect(entities.filter((each) => each.layer === 'bend_up')).toHaveLength(3);
    expect(entities.filter((each) => each.layer === 'brake_line')).toHaveLength(5);
  });

  it('names part, sheet, thickness and units in plain ASCII', () => {
    const accented = { ...trayPart, name: 'türblech_№' };
    const text = patternDxf(accented, tray);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the test is for ASCII.
    expect(text).toMatch(/^[\x00-\x7f]*$/);
    expect(text).toContain('turblech_No  crs_12  1.2 mm  units: mm');
    expect(dxfText('⌀ 7 at 90° ± 1 ×')).toBe('%%c 7 at 90%%d %%p 1 x');
    // Source: DXF reference, string group codes: a character outside the code page is \U+ and four hexadecimal digits.
    expect(dxfText('板 ящик')).toBe('\\U+677F \\U+044F\\U+0449\\U+0438\\U+043A');
    expect(dxfText('a\u0007b')).toBe('a?b');
  });
});

const python = '/usr/bin/python3';
const hasEzdxf = existsSync(python) && spawnSync(python, ['-c', 'import ezdxf']).status === 0;

describe.skipIf(!hasEzdxf && process.env.CI === undefined)('the DXF pattern, read back by ezdxf', () => {
  it.each([
    ['tray', tray],
    ['disc', disc],
  ])('%s: no error in the audit, the same geometry', (name, blank) => {
    const file = join(mkdtempSync(join(tmpdir(), 'planish-dxf-')), `${name}.dxf`);
    writeFileSync(file, patternDxf(trayPart, blank));
    const script = [
      'import ezdxf, json, sys',
      'doc = ezdxf.readfile(sys.argv[1])',
      'audit = doc.audit()',
      'cut = [e for e in doc.modelspace() if e.dxf.layer == "cut"]',
      'out = {"errors": [str(e.message) for e in audit.errors], "fixes": [str(e.message) for e in audit.fixes], "units": doc.header.get("$INSUNITS"),',
      '  "layers": sorted(l.dxf.name for l in doc.layers), "closed": cut[0].is_closed,',
      '  "vertices": [{"x": v.dxf.location.x, "y": v.dxf.location.y, "bulge": v.dxf.get("bulge", 0)} for v in cut[0].vertices]}',
      'print(json.dumps(out))',
    ].join('\n');
    const run = spawnSync(python, ['-c', script, file], { encoding: 'utf8' });
    expect(run.stderr).toBe('');
    const read = JSON.parse(run.stdout) as {
      errors: string[];
      fixes: string[];
      units: number;
      layers: string[];
      closed: boolean;
      vertices: Vertex[];
    };
    expect(read.errors).toEqual([]);
    expect(read.fixes).toEqual([]);
    expect(read.units).toBe(4);
    expect(read.closed).toBe(true);
    for (const layer of ['bend_down', 'bend_up', 'brake_line', 'cut', 'cut_inside', 'mark', 'text']) expect(read.layers).toContain(layer);
    expectLoop(blank, read.vertices);
  });
});

describe.skipIf(!hasEzdxf && process.env.CI === undefined)('the DXF pattern of a beaded panel, read back by ezdxf', () => {
  it('has beads, bends and holes on their layers, where the blank has them, in millimetres', () => {
    const root = projectPath('samples');
    const gate = createProject({ files: nodeFiles(), root })
      .parts(`${root}/cargo-trike/gate.planish`)
      .find(({ part }) => part.name === 'gate');
    const blank = gate?.beads?.drawIn?.asCut;
    if (gate === undefined || blank === undefined) throw new Error('no gate');
    const file = join(mkdtempSync(join(tmpdir(), 'planish-dxf-')), 'gate.dxf');
    writeFileSync(file, patternDxf(gate.part, blank, gate.beads));
    const script = [
      'import ezdxf, json, sys',
      'from ezdxf import bbox',
      'doc = ezdxf.readfile(sys.argv[1])',
      'audit = doc.audit()',
      'model = list(doc.modelspace())',
      'count = lambda layer: len([e for e in model if e.dxf.layer == layer])',
      'cut = bbox.extents([e for e in model if e.dxf.layer == "cut"])',
      'print(json.dumps({"errors": len(audit.errors) + len(audit.fixes), "units": doc.header.get("$INSUNITS"),',
      '  "counts": {layer: count(layer) for layer in ("cut", "cut_inside", "bend_up", "bend_down", "bead_up", "bead_down", "brake_line")},',
      '  "types": {l.dxf.name: l.dxf.linetype for l in doc.layers},',
      '  "size": [cut.size.x, cut.size.y],',
      '  "holes": [[e.dxf.center.x, e.dxf.center.y, e.dxf.radius] for e in model if e.dxf.layer == "cut_inside" and e.dxftype() == "CIRCLE"],',
      '  "bends": [[e.dxf.start.x, e.dxf.start.y, e.dxf.end.x, e.dxf.end.y] for e in model if e.dxf.layer == "bend_down"]}))',
    ].join('\n');
    const run = spawnSync(python, ['-c', script, file], { encoding: 'utf8' });
    expect(run.stderr).toBe('');
    const read = JSON.parse(run.stdout) as {
      readonly errors: number;
      readonly units: number;
      readonly counts: Record<string, number>;
      readonly types: Record<string, string>;
      readonly size: readonly number[];
      readonly holes: readonly (readonly number[])[];
      readonly bends: readonly (readonly number[])[];
    };
    expect([read.errors, read.units]).toEqual([0, 4]);
    expect(read.counts).toEqual({ cut: 1, cut_inside: 5, bend_up: 0, bend_down: 5, bead_up: 4, bead_down: 0, brake_line: 5 });
    expect(read.types).toMatchObject({ cut: 'CONTINUOUS', bend_up: 'CONTINUOUS', bend_down: 'DASHED', bead_up: 'CENTER', mark: 'CENTER' });
    const off = (a: readonly number[], b: readonly number[]): number =>
      Math.max(...a.map((value, k) => Math.abs(value - (b[k] as number))));
    expect(off(read.size, [blank.width, blank.height])).toBeLessThan(1e-6);
    const round = blank.cutouts.flatMap(({ circle }) => (circle === undefined ? [] : [[circle.centre.x, circle.centre.y, circle.radius]]));
    expect(read.holes).toHaveLength(round.length);
    round.forEach((hole, k) => {
      expect(off(hole, read.holes[k] ?? [])).toBeLessThan(1e-6);
    });
    blank.bends.forEach(({ from, to }, k) => {
      expect(off([from.x, from.y, to.x, to.y], read.bends[k] ?? [])).toBeLessThan(1e-6);
    });
  });
});

describe('the SVG pattern', async () => {
  const type = await readType(readFonts());
  const svgOf = (blank: Blank, options: DisplayOptions = { unit: homeUnit('mm') }): string => patternSvg(trayPart, blank, options, type);
  const sizeOf = (svg: string): { readonly width: number; readonly height: number; readonly view: readonly number[] } => {
    const match = /<svg [^>]*width="([\d.]+)mm" height="([\d.]+)mm" viewBox="([^"]+)"/.exec(svg);
    return { width: Number(match?.[1]), height: Number(match?.[2]), view: (match?.[3] ?? '').split(' ').map(Number) };
  };

  it('is true size: one user unit is one millimetre both ways', () => {
    const { width, height, view } = sizeOf(svgOf(tray));
    expect(width).toBeGreaterThan(340);
    expect(view[2]).toBe(width);
    expect(view[3]).toBe(height);
  });

  it('draws the outline through the corners of the blank', () => {
    const svg = svgOf(tray);
    const data = /class="outline" d="([^"]+)"/.exec(svg)?.[1] ?? '';
    const ends = [...data.matchAll(/[LA]([^MLAZ]*)/g)].map((match) => (match[1] ?? '').trim().split(/\s+/).map(Number).slice(-2));
    expect(ends.map(([x, y]) => [x, y === 0 ? 0 : -(y ?? Number.NaN)])).toEqual(tray.outline.map((move) => [move.to.x, move.to.y]));
  });

  it('draws an arc of more than half a turn in two pieces through its far point', () => {
    const data = /class="outline" d="([^"]+)"/.exec(svgOf(disc))?.[1] ?? '';
    // From (20, 10) round (50, 50), radius 50, to (20, 90): the far point is (100, 50).
    expect(data).toBe('M20 -10A50 50 0 0 0 100 -50A50 50 0 0 0 20 -90L20 -10Z');
  });

  it('carries a check square and two rulers of true length below the part', () => {
    const svg = svgOf(tray, { unit: homeUnit('inch') });
    const runs = [...svg.matchAll(/M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)M/g)].map((match) => match.slice(1).map(Number));
    const level = runs
      .filter(([, y0, , y1]) => y0 === y1 && (y0 as number) > 0)
      .map(([x0, , x1]) => Number(((x1 as number) - (x0 as number)).toFixed(6)));
    expect(level).toEqual([100, 101.6]);
    expect(svg).toContain('>20 mm</text>');
    expect(svg).toContain('>100 mm</text>');
    expect(svg).toContain('>4 in</text>');
    expect(svg).toContain('Print at 100 %');
  });

  it('has the type in the file when it is given, and is well-formed', () => {
    const font = { regular: Buffer.from(type.fonts.regular).toString('base64'), bold: Buffer.from(type.fonts.bold).toString('base64') };
    const svg = patternSvg({ ...trayPart, name: 'a<b>&"c' }, tray, { unit: homeUnit('mm') }, type, font);
    expect(svg).toContain(`font-weight: normal; src: url(data:font/ttf;base64,${font.regular})`);
    if (!existsSync(python)) return;
    const read = spawnSync(
      python,
      ['-c', 'import sys, xml.dom.minidom as m; print(m.parseString(sys.stdin.buffer.read()).documentElement.tagName)'],
      { input: svg, encoding: 'utf8' },
    );
    expect(read.stderr).toBe('');
    expect(read.stdout.trim()).toBe('svg');
  });

  it('tells what to drill and cut by size and number, and counts one bend as one', () => {
    const svg = svgOf({ ...disc, bends: tray.bends.slice(0, 1) });
    const radius = disc.cutouts[0]?.circle?.radius ?? 0;
    expect(svg).toContain(`Holes and cuts: 1 × ⌀ ${2 * radius}.`);
    expect(svg).toContain('1 bend, face');
    expect(svgOf({ ...disc, cutouts: [] })).not.toContain('Holes and cuts');
  });

  it('says how the paper lies for the opposite hand', () => {
    const words = (opposite: number): string =>
      patternSvg({ ...trayPart, quantityOpposite: opposite }, tray, { unit: homeUnit('mm') }, type);
    expect(words(2)).toContain('For the opposite hand (2) lay the paper face down; bends keep their direction.');
    expect(words(0)).not.toContain('opposite hand');
  });

  it('uses wide lines for cuts, narrow for bends, dashed for bends down', () => {
    // ISO 128: a wide line is twice a narrow one. Dashes 12 and 3 line widths: ISO 128-20 table 3.
    const svg = svgOf(tray);
    expect(svg).toMatch(/class="outline" [^>]*stroke-width="0\.5"/);
    expect(svg).toMatch(/d="M320 -133L20 -133"[^>]*stroke-width="0\.25" stroke-dasharray="3 0\.75"/);
    expect(svg).toMatch(/d="M20 -25L320 -25"[^>]*stroke-width="0\.25"\/>/);
  });
});
