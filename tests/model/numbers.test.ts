import { describe, expect, it } from 'vitest';
import { build, sectionOf } from './build.js';
import { checkFindings } from './check.js';

/** Length of a section, mm, as a file in these units reads it. */
const millimetres = (units: string, written: string): number | undefined =>
  sectionOf(`units ${units}\nsection rail { length ${written} }`, 'rail').length?.value;

describe('a written length reaches the part in millimetres', () => {
  // 1 in = 25.4 mm exactly: international yard and pound agreement, 1959.
  const inch = 25.4;
  const cases: readonly (readonly [string, string, number])[] = [
    ['inch', '12', 12 * inch],
    ['inch', '0.75', 0.75 * inch],
    ['inch', '.75', 0.75 * inch],
    ['inch', '3/8', 0.375 * inch],
    ['inch', '1 3/8', 1.375 * inch],
    ['inch', '1-3/8', 1.375 * inch],
    ['inch', '30 1/4', 30.25 * inch],
    ['inch', '1e-3', 0.0254],
    ['inch', '3/32 in', 2.38125],
    ['inch', '12.5 mm', 12.5],
    ['inch', '125 cm', 1250],
    ['inch', '2 m', 2000],
    ['inch', '5 thou', 0.127],
    ['inch', `4' 2-1/2"`, 50.5 * inch],
    ['inch', `4'-2 1/2"`, 50.5 * inch],
    ['inch', '4 ft 2 1/2 in', 50.5 * inch],
    ['inch', '1/2″', 12.7],
    ['inch', '½', 12.7],
    ['inch', '2½', 63.5],
    ['millimetre', '12', 12],
    ['millimetre', '12.5', 12.5],
    ['millimetre', '3/8 in', 9.525],
    ['millimetre', '1 3/8"', 34.925],
    ['millimetre', "4'", 1219.2],
    ['millimetre', '1 in + 10', 35.4],
    ['inch', '10 mm + 1', 35.4],
    ['inch', '1 + 10 mm', 35.4],
    ['inch', '2 * 3', 6 * inch],
    ['inch', '2 * 3 mm', 6],
    ['inch', '6 mm / 4', 1.5],
    ['inch', '10 - 1/2', 9.5 * inch],
    ['inch', '3 / 8', 0.375 * inch],
    ['inch', 'sqrt(3 ^ 2 + 4 ^ 2)', 5 * inch],
    ['inch', 'sqrt(9 in2)', 3 * inch],
    ['inch', 'diagonal(3, 4 in)', 5 * inch],
    ['millimetre', '100 * sin(30)', 50],
    ['millimetre', '100 * cos(60 deg)', 50],
    ['millimetre', '20 * 34 %', 6.8],
    ['millimetre', 'round(13.2, to 0.5)', 13],
    ['inch', 'round(1.03, to 1/16)', inch],
    ['inch', 'floor(1 15/16, to 1/8)', 1.875 * inch],
    ['inch', 'ceil(30 mm, to 1/8)', 1.25 * inch],
    ['millimetre', 'max(1 in, 30, 2 cm)', 30],
    ['millimetre', 'min(1 in, 30)', 25.4],
    ['millimetre', 'sum(1, 2, 1 in)', 28.4],
    ['millimetre', 'abs(-3)', 3],
    ['millimetre', '(3, 4).y', 4],
    ['millimetre', '((3, 4) + (1, 0)).x', 4],
  ];
  it.each(cases)('units %s: %s', (units, written, mm) => {
    expect(millimetres(units, written)).toBeCloseTo(mm, 9);
  });
});

describe('gauge numbers', () => {
  const metals = `units inch
material mild_steel { gauge table steel  density 7850 kg/m3 }
material duct { gauge table galvanised }
material plain { density 2700 kg/m3 }
`;
  it('reads a sheet’s gauge by its material, anything else by the one it names', () => {
    // Manufacturers' Standard Gauge: 18 ga is 0.0478 in; galvanised 18 ga 0.0516 in.
    const model = build({
      'a.planish': `${metals}sheet crs_18 { material mild_steel thickness 18 ga }
sheet duct_18 { thickness 18 ga material duct }
panel a { sheet crs_18 outline rectangle 1 by 18 ga of duct }
panel b { sheet duct_18 outline rectangle 1 by 1 }`,
    }).model('a.planish');
    const [a, b] = model.parts;
    expect(a?.kind === 'panel' && a.sheet?.value.thickness).toBeCloseTo(0.0478 * 25.4, 9);
    expect(b?.kind === 'panel' && b.sheet?.value.thickness).toBeCloseTo(0.0516 * 25.4, 9);
    expect(a?.kind === 'panel' && a.outline?.edges[1]?.to.y).toBeCloseTo(0.0516 * 25.4, 9);
  });
  it('says why a gauge can’t be read', () => {
    checkFindings(`${metals}let t = 18 ga
//      ^^^^^ unit/gauge-without-material: 18 ga is a different thickness in each metal. Say of which: 18 ga of mild_steel.
sheet odd { material plain thickness 18 ga }
//                                   ^^^^^ unit/gauge-without-material: 18 ga can't be read: material plain names no gauge table. Add gauge table steel (or galvanised, stainless, brown and sharpe) to it, or give the thickness itself.
sheet thin { material mild_steel thickness 99 ga }
//                                         ^^^^^ number/out-of-range: The steel gauge table has no 99; it goes from 3 to 36.
sheet lost { material mild_stel thickness 1/16 }
//                    ^^^^^^^^^ name/unknown: There is no material mild_stel in sight. Did you mean mild_steel?`);
  });
});

describe('what the bench owns, in its own units', () => {
  it('keeps density in kg/m³, strengths in MPa and shares as ratios', () => {
    const text = `units inch
material mild_steel {
  gauge table steel
  density 0.2836 lb/in3   yield 30 ksi   modulus 205 GPa   elongation 34 %   hardening 0.20
  tightest radius 0 to thickness 1/16
  tightest radius 1/8 along to thickness 1/8
  tightest radius 1/16 across to thickness 1/8
  coating "oiled"
}
sheet crs_18 { material mild_steel thickness 18 ga size 48 by 96 bend radius 1/16 k 0.42 price 58 stocked 3 }
brake bench { leaf length 48 capacity 16 ga of mild_steel least flange 3/8 greatest turn 135 jaw 1 1/2 }
roller hand { throat 18 thickest 18 ga of mild_steel arm 2 1/2 }
die half_round { round width 3/8 depth 1/8 tightest turn 3/4 per pass 1/16 }
panel a { sheet crs_18 outline rectangle 1 by 1 }`;
    const part = build({ 'a.planish': text }).model('a.planish').part('a');
    if (part?.kind !== 'panel' || part.sheet === undefined) throw new Error('no sheet');
    const sheet = part.sheet.value;
    const material = sheet.material;
    // 0.2836 lb/in3 · 0.45359237 kg / (0.0254 m)³
    expect(material?.density).toBeCloseTo((0.2836 * 0.45359237) / 0.0254 ** 3, 6);
    // 1 psi = 0.45359237 · 9.80665 / 25.4² N/mm²
    expect(material?.yield).toBeCloseTo((30000 * 0.45359237 * 9.80665) / 25.4 ** 2, 6);
    expect(material?.modulus).toBeCloseTo(205000, 6);
    expect(material?.elongation).toBeCloseTo(0.34, 12);
    expect(material?.hardening).toBe(0.2);
    expect(material?.coating).toBe('oiled');
    expect(material?.tightest).toEqual([
      { upTo: 1.5875, across: 0, along: 0 },
      { upTo: 3.175, across: 1.5875, along: 3.175 },
    ]);
    expect(sheet.size).toEqual({ width: 48 * 25.4, height: 96 * 25.4 });
    expect(sheet.method).toEqual({ kind: 'k', k: 0.42 });
    expect([sheet.price, sheet.stocked]).toEqual([58, 3]);
    expect(part.brakes[0]?.capacity?.thickness).toBeCloseTo(0.0598 * 25.4, 9);
    expect(part.brakes[0]?.greatestTurn).toBeCloseTo((135 * Math.PI) / 180, 12);
    expect(part.rollers[0]?.throat).toBeCloseTo(18 * 25.4, 9);
    expect(part.dies[0]).toMatchObject({ name: 'half_round', shape: 'round', depth: 3.175 });
  });
});
