/** What a booklet says of a job, and what it leaves out: fields, cautions, mark-out, beads, bends, what was not checked. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { memoryFiles } from '../../server/files.js';
import { type Booklet, type BookletWish, makeBooklet } from '../../server/node-booklet.js';
import { createProject } from '../../server/project.js';
import { stepLines } from '../../server/sheets/booklet/bends.js';

const shop = `units millimetre
material mild_steel { density 7850 kg/m3  yield 210 MPa  modulus 205 GPa }
sheet steel_10 { material mild_steel  thickness 1  size 600 by 900  bend radius 1 k 0.42 }
sheet zinc_10 { material galvanised  thickness 1  size 600 by 900  bend radius 1 k 0.42 }
material galvanised { density 7850 kg/m3  coating "zinc" }
tube round_25 { material mild_steel  round 25  wall 2  length 6 m }
`;
const brake = `brake folder { leaf  length 1000  capacity 1.6 of mild_steel  least flange 8  greatest turn 140 }\n`;
const roller = `roller hand_roller { throat 450  thickest 1.2 of mild_steel }\ndie half_round_10 { round  width 10  depth 2.5  tightest turn 20  per pass 1.3 }\n`;

const wish: BookletWish = { title: 'cabinet', fields: { date: '2026-01-01' }, format: 'html', bothUnits: false, seed: 1 };
const book = async (part: string, more: Partial<BookletWish> = {}, machines = '', units = 'millimetre'): Promise<Booklet> => {
  const texts = { '/job/shop.planish': shop + machines, '/job/part.planish': `with "shop.planish"\nunits ${units}\n${part}` };
  const project = createProject({ files: memoryFiles(texts), root: '/job' });
  const booklet = await makeBooklet([{ path: '/job/part.planish', name: 'part.planish', project }], { ...wish, ...more });
  if (booklet === undefined) throw new Error('it was not stopped');
  return booklet;
};
/** What a reader sees, drawings included, a line for each piece of text. */
const said = async (part: string, more: Partial<BookletWish> = {}, machines = '', units = 'millimetre'): Promise<string> => {
  const html = new TextDecoder().decode((await book(part, { ...more, format: 'html' }, machines, units)).bytes);
  return html
    .replace(/<style[\s\S]*?<\/style>/g, '')
    .replace(/<[^>]*>/g, '\n')
    .replaceAll('\u00a0', ' ')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&amp;/g, '&')
    .replace(/\n\s*\n+/g, '\n');
};

const plate = 'panel plate { sheet steel_10  outline rectangle 100 by 60 }';
const tray = `panel tray {
  sheet steel_10
  outline rectangle 200 by 120
  edge top, bottom { flange 30 up }
  corner all relief round 4
}`;
const ribbed = `panel ribbed {
  sheet steel_10
  outline rectangle 300 by 200
  bead rib { die half_round_10  up  line from (60, 100) to (240, 100) }
}`;

const titles = {
  edges: 'Edges and slivers',
  large: 'Carrying large sheets',
  brake: 'The brake pinches',
  roller: 'dies draw in whatever touches them',
  drilling: 'Drilling thin sheet',
  sparks: 'Cutting and grinding',
  zinc: 'Zinc-coated metal near heat',
  welding: 'Welding: light, fume, heat',
  solder: 'Soldering: flux, fume, hot metal',
  fuel: 'Fuel near the work',
} as const;
const cautions = async (part: string, machines = ''): Promise<readonly string[]> => {
  const text = await said(part, {}, machines);
  return Object.entries(titles).flatMap(([name, title]) => (text.includes(title) ? [name] : []));
};

describe('cautions', () => {
  it('are those that the job calls for', async () => {
    expect(await cautions(plate)).toEqual(['edges']);
    expect(await cautions(tray)).toEqual(['edges', 'brake']);
    expect(await cautions(ribbed, roller)).toEqual(['edges', 'roller']);
    expect(await cautions('panel plate { sheet steel_10  outline rectangle 100 by 60  hole 5 at (20, 20) }')).toEqual([
      'edges',
      'drilling',
    ]);
    expect(await cautions('panel door { sheet steel_10  outline rectangle 1200 by 600 }')).toEqual(['edges', 'large']);
    expect(await cautions('panel plate { sheet zinc_10  outline rectangle 100 by 60 }')).toEqual(['edges', 'zinc']);
    expect(await cautions('piece rail { tube round_25  length 300 }')).toEqual(['edges', 'sparks']);
    expect(await cautions('piece rail { tube round_25  length 300  end both mitre 45 }')).toEqual(['edges', 'sparks', 'welding']);
  });
  it('are read from what is written of the parts too, and from whole words only', async () => {
    expect(await cautions(`/// Sits over the fuel can. Weld the corners, grind them flush.\n${plate}`)).toEqual([
      'edges',
      'sparks',
      'welding',
      'fuel',
    ]);
    expect(await cautions(`/// A thank-you to the seaweed farm.\n${plate}`)).toEqual(['edges']);
    expect(await cautions(`/// Solder the corners.\n${plate}`)).toEqual(['edges', 'solder']);
    expect(await cautions(`/// For an old soldier.\n${plate}`)).toEqual(['edges']);
  });
  it('defer to local codes and to licensed people', async () => {
    const text = await said(plate);
    expect(text).toContain('Local codes come before anything printed here');
    expect(text).toContain('licensed people');
  });
});

describe('what was not checked', () => {
  const rest = async (part: string, machines = ''): Promise<string> =>
    (await said(part, {}, machines)).split('What was not checked, and what is open').at(-1) ?? '';
  it('names what the shop leaves out, and why', async () => {
    expect(await rest(tray)).toContain('no brake is described');
    expect(await rest(tray, brake)).not.toContain('no brake is described');
    const dies = roller.split('\n')[1] ?? '';
    expect(await rest(ribbed, dies)).toContain('Whether the roller reaches the beads: no roller is described.');
    expect(await rest(ribbed, roller)).not.toContain('no roller is described');
    expect(
      await rest('panel plate { sheet bare  outline rectangle 100 by 60 }', 'sheet bare { thickness 1  bend radius 1 k 0.42 }'),
    ).toContain('names no material');
  });
  it('always says what no program can look at, and lists what is open', async () => {
    const text = await rest(plate);
    expect(text).toContain('Strength of the joints');
    expect(text).toContain('No error and no warning is open in the file.');
    const open = await rest('panel lid { sheet steel_10  outline rectangle 100 by 60  edge top { flange 3 up } }', brake);
    expect(open).toContain('part.planish:3');
    expect(open).toContain('brake/flange-too-short');
  });
});

describe('the cover', () => {
  it('has the data fields of ISO 7200, given or left to be written', async () => {
    const text = await said(plate, {
      fields: { date: '2026-03-05', owner: 'Bench 4', number: 'C-17', creator: 'A. Smith', approver: 'B. Jones', revision: 'b' },
    });
    for (const [name, value] of [
      ['Legal owner', 'Bench 4'],
      ['Identification number', 'C-17'],
      ['Revision index', 'b'],
      ['Created by', 'A. Smith'],
      ['Approved by', 'B. Jones'],
      ['Date of issue', '2026-03-05'],
    ])
      expect(text).toContain(`${name}\n${value}\n`);
    expect(await said(plate)).not.toMatch(/undefined|NaN/);
  });
  it('counts parts and pieces, and lists every chapter', async () => {
    const text = await said(`${plate}\npanel door { sheet steel_10  outline rectangle 300 by 200  quantity 2 and 1 opposite hand }`);
    expect(text).toContain('Job booklet: 2 parts, 4 pieces to make from part.planish.');
    expect(text).toContain('door: 2 off and 1 of the opposite hand');
  });
});

describe('the mark-out', () => {
  it('rounds every number from its own total', async () => {
    // Thirds of 100 mm: 33.33… and 66.66…; adding the first up would print 66.6.
    const text = await said('panel strip { sheet steel_10  outline rectangle 100 by 30  hole 4 at (100 / 3, 10), (2 * 100 / 3, 10) }');
    expect(text).toMatch(/\n33\.3\n33\.33\n10\n10\n⌀ 4/);
    expect(text).toMatch(/\n66\.7\n66\.67\n10\n10\n⌀ 4/);
  });
  it('gives fraction and decimal in an inch file, and the other unit when asked', async () => {
    const strip = 'panel strip { sheet steel_10  outline rectangle 4 by 1  hole 1/4 at (1 1/4 + 0.01, 1/2) }';
    // 1.26 in is 1 17/64 less 0.0056: within half a 64th, so the sign says it is less.
    expect(await said(strip, {}, '', 'inch')).toMatch(/\n1 17\/64−\n1\.260\n1\/2\n0\.500\n/);
    expect(await said(strip, { bothUnits: true }, '', 'inch')).toMatch(/\n1 17\/64−\n1\.260\n32\.00\n1\/2\n0\.500\n12\.70\n/);
    const metric = 'panel strip { sheet steel_10  outline rectangle 100 by 30  hole 6 at (31.75, 10) }';
    expect(await said(metric, { bothUnits: true })).toMatch(/\n31\.8\n31\.75\n1\.250\n10\n10\n0\.394\n/);
  });
  it('scribes brake line and middle of the bend as one where they are nearer than a scribed line is wide', async () => {
    // R 1, T 1, K 0.42: allowance π/2 · 1.42 = 2.2305; the middle lies 1.115 from the tangent, the brake line 1 from it: 0.115 apart.
    const text = await said(tray, {}, brake);
    expect(text).toMatch(/brake line (top|bottom)\.1\s+up 90°\s+R 1 \(middle [\d.]+\)/);
    // R 3: 3 against π/2 · 3.42 / 2 = 2.686: far enough to be scribed apart.
    const apart = await said(tray.replace('flange 30 up', 'flange 30 up radius 3'), {}, brake);
    expect(apart).toMatch(/\nbrake line top\.1\s+up 90°\s+R 3\n/);
    expect(apart).toMatch(/\nbend top\.1\s+up 90°\s+R 3\n/);
  });
  it('says of a drawn cut-out that its place is not its middle', async () => {
    const eye = 'cut drawn at (60, 20) as eye { from (0, 0) right 20 line to (10, 15) close }';
    const text = await said(
      `panel lid { sheet steel_10  outline rectangle 100 by 60  ${eye}  cut rectangle 20 by 10 at (30, 40) as window }`,
    );
    expect(text).toMatch(/\n60\n60\n20\n20\n20 × 15 over all, drawn from here: not its middle\s+eye\n/);
    expect(text).toMatch(/\n20 × 10\s+window\n/);
  });
  it('never runs a line over what lies between two cuts at one height', async () => {
    const fork = 'outline { from (0, 0) right 100 up 60 left 30 down 20 left 40 up 20 left 30 close }';
    const text = await said(`panel fork { sheet steel_10  ${fork} }`);
    expect(text).toMatch(/\n60\n60\ncut\n0 and 30\n70 and 100\n/);
    expect(text).toMatch(/\n40\n40\ncut\n30 and 70\n/);
    // Square reliefs whose sides lie on a line of a bend: where they are cut is told apart from the bend.
    const relieved = await said(
      tray.replace('relief round 4', 'relief square 2').replace('top, bottom', 'top, bottom, left, right'),
      {},
      brake,
    );
    expect(relieved).toMatch(/\nbrake line left\.1[^\n]*\n/);
    expect(relieved).not.toMatch(/\n(brake line|bend) [^\n]*; cut\n/);
    // Nothing is scribed past the edge: a bead that runs off ends there.
    const run = 'line from (0, 60) to (300, 60) ends run off';
    const level = await said(ribbed.replace('line from (60, 100) to (240, 100)', run), {}, roller);
    expect(level).toMatch(/\nbead rib\n0 and 300\n/);
    const slope = await said(ribbed.replace('line from (60, 100) to (240, 100)', run.replace('(300, 60)', '(300, 140)')), {}, roller);
    expect(slope).toMatch(/Sloping lines and arcs[\s\S]*\n0, [\d.]+\n0, [\d.]+\n300[\d.]*, [\d.]+\n300[\d.]*, [\d.]+\nbead rib\n/);
    // What meets end to end is one.
    const foot = await said('panel foot { sheet steel_10  outline { from (0, 0) right 40 right 60 up 60 left 70 left 30 close } }');
    expect(foot).toMatch(/\n60\n60\ncut\n0 and 100\n/);
  });
});

describe('the mark-out of what a hand bends', () => {
  it('has where it starts and ends, and no line for a nose', async () => {
    const lip = await said('panel lip { sheet steel_10  outline rectangle 200 by 120  edge top { rolled radius 20 down 90 } }', {}, brake);
    // R 20, T 1, K 0.42: π/2 · 20.42 = 32.08 of sheet from the start of the roll to its end; 120 less what the roll takes of it, 21, comes first.
    expect(lip).toMatch(/\n99\n99\nstart of top\.1\s+down 90°\s+R 20\n/);
    expect(lip).toMatch(/\n131\.1\n131\.08\nend of top\.1\s+down 90°\s+R 20; cut\n/);
    expect(lip).toMatch(/\n115\n115\.04\nmiddle of top\.1\s/);
    expect(lip).not.toContain('brake line top.1');
  });
});

describe('the trial strips', () => {
  it('keep their words on the strip, and none over another', async () => {
    const shelf = `panel shelf {
  sheet steel_10
  outline rectangle 300 by 200
  bead border { die half_round_10  up  rectangle inset 40 corner 30 }
  edge top { flange 20 down 100 }
}`;
    const html = new TextDecoder().decode((await book(`${ribbed}\n${shelf}`, {}, brake + roller)).bytes);
    const strips = html.match(/<svg[^>]*aria-label="trial strip[\s\S]*?<\/svg>/g) ?? [];
    expect(strips).toHaveLength(3);
    for (const svg of strips) {
      const [, left = 0, foot = 0, right = 0, top = 0] = (/d="M(\S+) (\S+)L(\S+) \S+L\S+ (\S+)L/.exec(svg) ?? []).map(Number);
      const texts = [...svg.matchAll(/<text x="(\S+)" y="(\S+)" font-size="(\S+)"[^>]*>([^<]*)</g)].map(([mark, ...rest]) => {
        const [x, y, size] = rest.slice(0, 3).map(Number) as [number, number, number];
        const half = ([...(rest[3] ?? '')].length * size * 0.6) / 2;
        // Turned, letters rise to the left of where they stand.
        const box = mark.includes('rotate(-90') ? [x - size * 0.72, y - half, x, y + half] : [x - half, y - size * 0.72, x + half, y];
        return { words: rest[3] ?? '', x, y, box: box as [number, number, number, number] };
      });
      const inside = texts.filter(({ x, y }) => x > left && x < right && y > top && y < foot);
      expect(inside.length).toBeGreaterThan(0);
      for (const [i, { words, box }] of inside.entries()) {
        expect(box[0] >= left && box[1] >= top && box[2] <= right && box[3] <= foot, `${words} on the strip`).toBe(true);
        for (const other of inside.slice(i + 1)) {
          const apart = box[2] <= other.box[0] || other.box[2] <= box[0] || box[3] <= other.box[1] || other.box[3] <= box[1];
          expect(apart, `${words} over ${other.words}`).toBe(true);
        }
      }
    }
  });
});

describe('beads and bends', () => {
  it('come as a schedule with dies, ends and depths, and as steps in the order of the plan', async () => {
    const beads = await said(ribbed, {}, roller);
    expect(beads).toContain('Rolling the beads on hand_roller');
    expect(beads).toMatch(/\nrib\nhalf_round_10\nface (up|down)\n/);
    expect(beads).toContain('1.25, 2.50');
    const bends = await said(tray, {}, brake);
    expect(bends).toContain('Bending on folder, in this order');
    const steps = [...bends.matchAll(/\n(\d)\. {2}(top|bottom)\.1\n/g)].map(([, number]) => number);
    expect(steps).toEqual(['1', '2']);
    expect(bends).toMatch(/Under the nose: \S+, face up; its line [\d.]+ mm from the free edge\./);
    expect(bends).toMatch(/both diagonals are 233\.2 mm/);
  });
  it('say that no way in was found before the part is put in, and how it gets out after the bend', () => {
    const project = createProject({ files: memoryFiles({ '/job/a.planish': `${shop}${brake}${tray}` }), root: '/job' });
    for (const _ of project.planInSteps('/job/a.planish'));
    const [result] = project.parts('/job/a.planish');
    const step = result && project.planned('/job/a.planish', result)?.plan.steps[0];
    if (step === undefined || result?.blank.blank === undefined) throw new Error('the tray is planned');
    const { blank } = result.blank;
    const order = (noWay: 'in' | 'out' | undefined): readonly string[] =>
      stepLines({ ...step, ...(noWay === undefined ? {} : { noWay }) }, blank, { say: String, sayBoth: (a, b) => [String(a), String(b)] })
        .map((line) => line.split(' ').slice(0, 3).join(' '))
        .filter((line) => /^(No way|Under|Set)/.test(line));
    expect(order(undefined)).toEqual(['Under the nose:', expect.stringMatching(/^Set/)]);
    expect(order('in')).toEqual(['No way in', 'Under the nose:', expect.stringMatching(/^Set/)]);
    expect(order('out')).toEqual(['Under the nose:', expect.stringMatching(/^Set/), 'No way out']);
  });
  it('say what stops a part that can’t be bent here', async () => {
    const text = await said(tray.replace('rectangle 200', 'rectangle 1200'), {}, brake);
    expect(text).toContain('It can’t be bent on folder as drawn');
    expect(text).toMatch(/top\.1 is stopped/);
    expect(text).toContain('brake 1000 mm');
  });
  it('draw red what strikes, and only where a bend is stopped', async () => {
    const fingers = `brake fingers_1020 {
  fingers 25, 50, 75, 100, 150, 200, 300
  length 1020
  depth 120
  capacity 1.5 of mild_steel
  least flange 8
  greatest turn 140
  jaw 50
  nose (0, 0), (-30, 30), (-50, 120), (-50, 160), (-130, 160), (-130, 120), (-75, 60), (-60, 0)
  bed (0, 0), (-140, 0), (-140, -90), (-18, -90)
  apron (0, 0), (10, 0), (10, -70), (0, -70)
}
`;
    const shown = async (part: string): Promise<{ readonly red: boolean; readonly goes: boolean }> => {
      const html = new TextDecoder().decode((await book(part, {}, fingers)).bytes);
      const cards = html.match(/<div class="card">[\s\S]*?<\/ul><\/div>/g) ?? [];
      return { red: cards.some((card) => card.includes('#b3261e')), goes: html.includes('Bending on fingers_1020, in this order') };
    };
    // Returns of the other edges stand in the way of the whole nose, but not of the fingers between them.
    const door = `panel door {
  sheet steel_10
  outline rectangle 200 by 300
  edge top, left { flange 18 down  flange 11 down }
  corner all open relief round 4
}`;
    expect(await shown(door)).toEqual({ red: false, goes: true });
    const closed =
      'section box { sheet steel_10  length 200  leg 12  turn up 90  leg 20  turn up 90  leg 20  turn up 90  leg 20  turn up 90  leg 12 }';
    expect(await shown(closed)).toEqual({ red: true, goes: false });
  });
  it('tell what a hand does that no brake can, and then speak of no nose', async () => {
    const text = await said('panel edge { sheet steel_10  outline rectangle 200 by 120  edge top { curl round 4 up } }', {}, brake);
    expect(text).toContain('close it round the wire last');
    expect(text).toContain('Bending by hand, in this order');
    expect(text).not.toMatch(/edge of the nose|Bending on folder/);
  });
  it('are read as in a mirror for the opposite hand: the sheet is not turned over as well', async () => {
    const mirrored = (part: string, machines = ''): Promise<string> =>
      said(part.replace('outline', 'quantity 1 and 1 opposite hand  outline'), {}, machines);
    const bent = await mirrored(tray, brake);
    expect(bent).toContain('Opposite hand, 1 off: the mirror image. Same face up, every bend the same way.');
    expect(bent).not.toMatch(/other face up|bend the other way|other end/);
    // The roller is no mirror image of itself.
    expect(await mirrored(ribbed, roller)).toContain('roll each bead from its other end');
    expect(await said(tray, {}, brake)).not.toContain('Opposite hand,');
  });
  it('stand raised in the pictures of the finished part', async () => {
    const flanged = ribbed.replace('outline rectangle 300 by 200', 'outline rectangle 300 by 200  edge top, bottom { flange 20 down }');
    const lengthOf = async (part: string): Promise<readonly number[]> => {
      const html = new TextDecoder().decode((await book(part, {}, brake + roller)).bytes);
      return ['the parts of the job: ribbed', 'ribbed, folded'].map((title) => {
        const [svg = ''] = html.match(new RegExp(`<svg(?:(?!<svg)[\\s\\S])*?${title}[\\s\\S]*?</svg>`)) ?? [];
        return svg.length;
      });
    };
    const [beaded, plain] = [await lengthOf(flanged), await lengthOf(flanged.replace(/ {2}bead .*\n/, ''))];
    for (const [i, length] of plain.entries()) {
      expect(length).toBeGreaterThan(500);
      expect(beaded[i]).toBeGreaterThan(length + 100);
    }
  });
});

describe('as PDF', () => {
  const job = `${tray}\n${ribbed}\npiece rail { tube round_25  length 300  end start cope onto round_25 }`;
  const readable = existsSync('/usr/bin/pdfinfo') && existsSync('/usr/bin/pdftotext');
  it('is the same bytes for the same job and date, and other bytes for another date', async () => {
    const make = (date: string): Promise<Booklet> => book(plate, { format: 'pdf', fields: { date } });
    const [first, again, later] = [await make('2026-01-01'), await make('2026-01-01'), await make('2026-01-02')];
    expect(Buffer.from(first.bytes).equals(Buffer.from(again.bytes))).toBe(true);
    expect(Buffer.from(first.bytes).equals(Buffer.from(later.bytes))).toBe(false);
  });
  it.skipIf(!readable)('is read back by another program: as many pages as said, and the words of every chapter', async () => {
    const booklet = await book(job, { format: 'pdf', paper: 'letter' }, brake + roller);
    const file = join(mkdtempSync(join(tmpdir(), 'planish-book-')), 'book.pdf');
    writeFileSync(file, booklet.bytes);
    const info = spawnSync('pdfinfo', [file], { encoding: 'utf8' }).stdout;
    expect(info).toMatch(new RegExp(`Pages: +${booklet.sheets}\\n`));
    expect(info).toMatch(/Title: +cabinet\n/);
    expect(info).toMatch(/Page size: +612 x 792 pts \(letter\)/);
    const text = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).stdout;
    for (const words of [
      'Legal owner',
      'Cautions for this job',
      'What to buy and cut',
      'Trial strips to make first',
      'Rolling the beads',
      'in this order',
      'Template for the start of rail',
      'What was not checked',
    ])
      expect(text).toContain(words);
    expect(text.match(/Supplementary title/g)).toHaveLength(booklet.sheets ?? 0);
  });
  it('is not made when it was stopped, and tells on the way what is being done', async () => {
    const stop = new AbortController();
    const told: string[] = [];
    const texts = { '/job/shop.planish': shop + brake, '/job/part.planish': `with "shop.planish"\nunits millimetre\n${tray}` };
    const project = createProject({ files: memoryFiles(texts), root: '/job' });
    const made = await makeBooklet([{ path: '/job/part.planish', name: 'part.planish', project }], {
      ...wish,
      stop: stop.signal,
      progress: (share, words) => {
        expect(share).toBeGreaterThanOrEqual(0);
        expect(share).toBeLessThanOrEqual(1);
        told.push(words);
        if (words === 'tray') stop.abort();
      },
    });
    expect(made).toBeUndefined();
    expect(told).toEqual(expect.arrayContaining(['bending: part.planish', 'cover', 'tray']));
  });
});
