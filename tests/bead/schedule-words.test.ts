/** What the rows of the schedule are called at the bench. */
import { describe, expect, it } from 'vitest';
import { edgeOfSheet, frameOver, runEnds } from '../../server/bead/index.js';
import { byK, polygonPanel, rectangle, sheet } from '../blank/build.js';
import { bead, beaded, border, line, roller, through, work } from './build.js';

const crs = sheet(1, 1, byK(0.42));
const flat = { sheet: crs };
const tray = rectangle(600, 400, flat);

describe('ends of a run', () => {
  it('are those of the line as marked on the sheet to cut, the end that goes in first first', () => {
    const { result } = work(beaded(tray, [bead('rib', line(100, 100, 500, 100))], [roller(150, 60)]));
    const [row] = result.schedule;
    const mark = result.drawIn?.marks[0]?.path;
    if (row === undefined || mark === undefined) throw new Error('no row');
    // The frame over the lower edge, on the right of the line as drawn: the finish goes in first.
    expect(row.from).toBe('finish');
    expect(frameOver(result, row)).toBe('bottom');
    expect(runEnds(result, row)).toEqual({
      first: { at: mark.moves[0]?.to, runsOff: false },
      last: { at: mark.start, runsOff: false },
      allRound: false,
    });
  });

  it('of a bead that runs off are at the edge, not beyond it where its line ends', () => {
    const rib = bead('rib', line(100, 300, 500, 300), { start: 'run off', finish: 'run off' });
    const { result } = work(beaded(tray, [rib], [roller(150, 60)]));
    const ends = result.schedule.map((row) => runEnds(result, row))[0];
    const xs = [ends?.first.at.x, ends?.last.at.x].map((x) => x ?? Number.NaN).sort((a, b) => a - b);
    expect(ends).toMatchObject({ first: { runsOff: true }, last: { runsOff: true } });
    // One bead right across draws nothing in along itself: the edges stay where they are.
    expect(xs).toEqual([expect.closeTo(0, 6), expect.closeTo(600, 6)]);
  });

  it('of a ring are one place, its frame inside or outside', () => {
    const { result } = work(beaded(tray, [bead('border', border(40, 25))], [roller(1000, 60)]));
    const [row] = result.schedule;
    if (row === undefined) throw new Error('no row');
    expect(runEnds(result, row)?.allRound).toBe(true);
    expect(frameOver(result, row)).toBe('outside');
  });

  it('of a parted bead meet where the frame changes over', () => {
    const blocks = polygonPanel(
      [
        { x: 0, y: 0 },
        { x: 200, y: 0 },
        { x: 200, y: 200 },
        { x: 600, y: 200 },
        { x: 600, y: 500 },
        { x: 400, y: 500 },
        { x: 400, y: 300 },
        { x: 0, y: 300 },
      ],
      flat,
    );
    const { result } = work(
      beaded(
        blocks,
        [
          bead(
            'rib',
            through([
              { x: 20, y: 250 },
              { x: 580, y: 250 },
            ]),
          ),
        ],
        [roller(120, 40)],
      ),
    );
    const ends = result.schedule.map((row) => runEnds(result, row));
    expect(ends).toHaveLength(2);
    const all = ends.flatMap((one) => (one === undefined ? [] : [one.first.at.x, one.last.at.x])).sort((a, b) => a - b);
    expect(all[1]).toBeCloseTo(all[2] ?? Number.NaN, 6);
    expect(result.schedule.map((row) => frameOver(result, row)).sort()).toEqual(['bottom', 'top']);
  });
});

describe('an edge that bows is called', () => {
  it('by its name, by the side of the sheet it makes up, by the flange it cuts', () => {
    expect(edgeOfSheet({ edge: 'edge:top', side: 'top' })).toBe('top');
    expect(edgeOfSheet({ edge: 'face:right.1', side: 'top' })).toBe('the top edge of the sheet');
    expect(edgeOfSheet({ edge: 'face:right.1', side: undefined })).toBe('the cut edge of right.1');
    expect(edgeOfSheet({ edge: undefined, side: undefined })).toBe('an edge without a name');
  });
  it('each once, where flanges carry on an edge of the base', () => {
    const bent = rectangle(600, 400, {
      sheet: crs,
      edges: [
        { edge: 'left', steps: [{ length: 30 }] },
        { edge: 'right', steps: [{ length: 30 }] },
      ],
    });
    const { result } = work(beaded(bent, [bead('border', border(60, 25))]));
    const names = (result.drawIn?.bows ?? []).map(edgeOfSheet);
    expect(new Set(names).size).toBe(names.length);
    expect(names.length).toBeGreaterThan(3);
  });
});
