/** Drawings of what is cut from a length: every word has a place of its own, whatever its scale. */
import { describe, expect, it } from 'vitest';
import { memoryFiles } from '../../server/files.js';
import { homeUnit } from '../../server/model/dimension.js';
import { createProject } from '../../server/project.js';
import { boxOfText, drawPiece, isCutFromLength, layOut } from '../../server/sheets/index.js';
import { crosses } from '../../server/sheets/placing.js';

const stock = `units millimetre
material mild_steel { density 7850 kg/m3 }
bar flat_25 { material mild_steel  flat 25 by 3  length 3 m }
rod rod_10 { material mild_steel  round 10  length 3 m }
tube round_32 { material mild_steel  round 32  wall 2  length 6 m }
`;
const parts: Readonly<Record<string, string>> = {
  'a clamp with short tails': 'strap clamp { bar flat_25  round pin 32  wrap 180  tail 32 and 32  hole 8 at (16, 12.5) }',
  'an eye': 'strap eye { bar flat_25  round pin 7  wrap 270  tail 63 }',
  'a hook bent twice': 'piece hook { rod rod_10  length 190  bend at 50 by 90 radius 19  bend at 100 by 90 radius 19 }',
  'a tube with a hole and a bend': 'piece post { tube round_32  length 965  bend at 660 by 35 radius 127  hole 10 through at (254, 16) }',
};
const drawingOf = (text: string, letters: number) => {
  const project = createProject({ files: memoryFiles({ '/a.planish': `${stock}${text}` }), root: '/' });
  const part = project.parts('/a.planish')[0]?.part;
  if (part === undefined || !isCutFromLength(part) || part.broken) throw new Error(JSON.stringify(project.findings('/a.planish')));
  const drawing = drawPiece(part, { unit: homeUnit('millimetre') }, letters);
  if (drawing === undefined) throw new Error('its stock is known');
  return drawing;
};

describe('the words of a length', () => {
  it.each(Object.entries(parts))('lie over no other and on no edge: %s', (_, text) => {
    for (const letters of [2.6, 5, 9, 14]) {
      const drawing = drawingOf(text, letters);
      const { texts, lines } = layOut(drawing, letters);
      const boxes = texts.map(boxOfText);
      boxes.forEach((a, i) => {
        const own = `${texts[i]?.text} in letters of ${letters}`;
        for (const [j, b] of boxes.slice(i + 1).entries()) {
          const apart = a.max.x <= b.min.x + 1e-9 || b.max.x <= a.min.x + 1e-9 || a.max.y <= b.min.y + 1e-9 || b.max.y <= a.min.y + 1e-9;
          expect(apart, `${own} over ${texts[i + 1 + j]?.text}`).toBe(true);
        }
        // Letters fill three quarters of their box.
        const height = (texts[i]?.height ?? 0) * 0.13;
        const core = { min: { x: a.min.x + height, y: a.min.y + height }, max: { x: a.max.x - height, y: a.max.y - height } };
        for (const { layer, geometry } of drawing.strokes)
          if (geometry.kind === 'line' && layer !== 'mark')
            expect(crosses(core, geometry.from, geometry.to), `${own} on a ${layer} line`).toBe(false);
        for (const { points } of lines) expect(crosses(core, points[0] ?? a.min, points[1] ?? a.min), `${own} on a thin line`).toBe(false);
      });
    }
  });
});
