import { describe, expect, it } from 'vitest';
import { build, sectionOf } from './build.js';
import { checkFiles, checkFindings } from './check.js';

describe('kinds that do not go together', () => {
  it('says so on the operator or at the argument, with both kinds and a cure', () => {
    checkFindings(`units inch
let a = 3 in + 40 deg
//           ^ unit/wrong-kind: A length (3 in) can't be added to an angle (40 deg). Both sides must be lengths or both angles.
let b = 2 kg - 1
//           ^ unit/wrong-kind: 1 has no unit and can't be joined by − with a mass (2 kg). Write its unit.
let c = (1, 2) + 3
//             ^ unit/wrong-kind: + can't stand between a point ((1, 2)) and a number without a unit (3). A point moves by a point: p + (1, 0).
let d = 4 < (1, 2)
//        ^ unit/wrong-kind: < can't stand between a number without a unit (4) and a point ((1, 2)). Only numbers are more or less than one another.
let between = 1 in < 2 in < 3 in
//                        ^ unit/wrong-kind: < can't stand between a yes or no (1 in < 2 in) and a length (3 in). Say it in two: a <= b and b <= c.
let e = sin(3 in)
//          ^^^^ unit/wrong-kind: sin wants an angle, and 3 in is a length. Write sin(30) or sin(30 deg).
let f = 1 / 0
//          ^ number/divided-by-nought: Nothing can be divided by 0.
let g = sqrt(-4)
//           ^^ number/out-of-range: -4 is less than 0 and has no square root.
let h = asin(2)
//           ^ number/out-of-range: asin wants a number from -1 to 1, not 2.
let i = rond(3, to 1/16)
//      ^^^^ name/unknown: There is no function rond. Did you mean round?
let j = a + 1
material mild_steel { density 7850  yield 210 mm }
//                            ^^^^ unit/bare-number: A density is wanted here, and 7850 has no unit. Write it with one, such as 7850 kg/m3.
//                                        ^^^^^^ unit/wrong-kind: A stress is wanted here, and 210 mm is a length. Write it as a stress, such as 210 MPa.
section rail {
  length 3 deg
//       ^^^^^ unit/wrong-kind: A length is wanted here, and 3 deg is an angle. Write it as a length, such as 3/4 in.
  leg 3 in * 2 in
//    ^^^^^^^^^^^ unit/wrong-kind: A length is wanted here, and 3 in * 2 in is an area. Write it as a length, such as 3/4 in.
  turn up 3 in
//        ^^^^ unit/wrong-kind: An angle is wanted here, and 3 in is a length. Write it as an angle, such as 90 deg.
  leg 50 %
//    ^^^^ unit/wrong-kind: A length is wanted here, and 50 % is a plain number. Write it as a length, such as 3/4 in.
}`);
  });
  it('keeps to the limits of each argument', () => {
    checkFindings(`units inch
panel gate {
  outline rectangle 0 by -2
//                  ^ number/out-of-range: The outline’s width must be more than 0, not 0 in.
//                       ^^ number/out-of-range: The outline’s height must be more than 0, not -2 in.
  edge top { flange 1 up 180 radius -1/8 }
//                       ^^^ number/out-of-range: The flange’s angle is how far the sheet turns from flat: more than 0° and less than 180°, not 180°.
//                                  ^^^^ number/out-of-range: The inside radius must be 0 or more, not -1/8 in.
  hole 1/4 along line from (1, 1) to (5, 1) count 2.5
//                                                ^^^ number/out-of-range: How many must be a whole number, not 2.5.
  repeat 100000 every 1 along x { hole 1/4 at (1, 1) }
//       ^^^^^^ number/out-of-range: How many times can be 10000 at most, not 100000.
  quantity -1
//         ^^ number/out-of-range: How many must be 0 or more, not -1.
}`);
  });
});

describe('bare numbers', () => {
  it('keep the size of the file they were written in', () => {
    const built = build({
      'inches.planish': 'units inch\nlet wide = 30 1/4\nlet corner = (1, 2)\nlet clear = 1/4 in\nlet half = wide / 2',
      'metric.planish':
        'units millimetre\nwith "inches.planish"\nlet n = 2\nsection a { length wide }\nsection b { length wide * 2 }\nsection c { length wide + 1 in }\nsection d { length clear + 1 }\nsection e { length corner.y }\nsection f { length half }\nsection g { length 2 * half / 4 }',
    });
    const length = (name: string) => {
      const part = built.model('metric.planish').part(name);
      return part?.kind === 'section' ? part.length?.value : undefined;
    };
    expect(length('a')).toBeCloseTo(768.35, 9);
    expect(length('b')).toBeCloseTo(1536.7, 9);
    expect(length('c')).toBeCloseTo(768.35 + 25.4, 9);
    expect(length('d')).toBeCloseTo(7.35, 9);
    expect(length('e')).toBeCloseTo(50.8, 9);
    expect(length('f')).toBeCloseTo(384.175, 9);
    expect(length('g')).toBeCloseTo(192.0875, 9);
    expect(built.model('metric.planish').findings).toEqual([]);
  });
  it('are refused when added to or compared with a bare number of another unit', () => {
    checkFiles({
      'inches.planish': 'units inch\nlet wide = 30\nlet count = 3',
      'metric.planish': `units millimetre
with "inches.planish"
let gap = 2
let a = wide + 1
//           ^ unit/bare-across-files: One number here has no unit and comes from inches.planish (inch), the other from this file (millimetre). Write the unit where it is given.
let b = wide * 2 - gap
//               ^ unit/bare-across-files: One number here has no unit and comes from inches.planish (inch), the other from this file (millimetre). Write the unit where it is given.
let c = max(wide, gap)
//                ^^^ unit/bare-across-files: One number here has no unit and comes from inches.planish (inch), the other from this file (millimetre). Write the unit where it is given.
let d = count * gap
check wide > 0
check wide < 400
//         ^ unit/bare-across-files: One number here has no unit and comes from inches.planish (inch), the other from this file (millimetre). Write the unit where it is given.
section s { length count * gap }
//                 ^^^^^^^^^^^ unit/bare-across-files: count * gap is made of numbers without a unit from inches.planish and this file, whose units differ, so its length can't be told. Write the unit where they are given.`,
    });
  });
  it('offer the unit at the let they come from', () => {
    const built = build({
      'inches.planish': 'units inch\nlet wide = 30',
      'metric.planish': 'units millimetre\nwith "inches.planish"\nlet a = wide + 1',
    });
    const fix = built.model('metric.planish').findings[0]?.fixes[0];
    expect(fix?.title).toBe('Write in at let wide in inches.planish');
    expect(fix?.edits).toEqual([{ file: '/job/inches.planish', span: { start: 24, end: 24 }, text: ' in' }]);
  });
  it('are one finding in a file without units, however many there are', () => {
    checkFindings(`// brackets for the rain lid
/// The lid's stay.
section stay {
  length 240
//       ^^^ unit/bare-without-units: This file doesn’t say what its lengths are in. Start it with units inch or units millimetre, or write a unit after each number.
  leg 15
  turn down 90
  leg 3 in
}
section other { length 12 }`);
    const text = '// brackets\n/// The stay.\nsection stay { length 240 }\n';
    const [finding] = build({ 'a.planish': text }).model('a.planish').findings;
    expect(finding?.fixes.map((fix) => fix.title)).toEqual(['Start with units inch', 'Start with units millimetre']);
    expect(finding?.fixes[0]?.edits).toEqual([{ span: { start: 12, end: 12 }, text: 'units inch\n\n' }]);
  });
  it('are degrees beside an angle and where one is wanted', () => {
    const part = sectionOf(
      'units inch\nlet lean = 15\nsection s { length 3 leg 1 turn up 90 - lean leg 1 turn up lean + 3 deg leg 1 }',
      's',
    );
    const turns = part.steps.flatMap((step) => (step.kind === 'turn' ? [(step.turn * 180) / Math.PI] : []));
    expect(turns[0]).toBeCloseTo(75, 9);
    expect(turns[1]).toBeCloseTo(18, 9);
  });
  it('never become an area or a mass', () => {
    checkFindings(`units inch
let a = 12 * 18 + 3 in2
//              ^ unit/wrong-kind: 12 * 18 has no unit and can't be added to an area (3 in2). Write its unit.`);
  });
});

describe('checks compare lengths within a thousandth of a millimetre and angles within a thousandth of a degree', () => {
  it('calls near sizes equal and far ones not', () => {
    checkFindings(`units inch
check 1 in = 25.4 mm
check 1 in = 25.4009 mm
check 25.4 mm <= 1 in and 1 in >= 25.4 mm and not 1 in < 25.4005 mm
check 90 deg = 90.0009 deg
check (1, 2) = (1 in, 50.8 mm)
check 1/3 * 3 = 1
check 1 in = 25.402 mm "the two rules disagree"
//    ^^^^^^^^^^^^^^^^ check/failed: the two rules disagree: 1 in = 25.402 mm doesn’t hold (1 in against 1.0001 in).
check 2 > 3 or (1 > 2 and yes)
//    ^^^^^^^^^^^^^^^^^^^^^^^^ check/failed: This doesn’t hold: 2 > 3 or (1 > 2 and yes) (2 against 3, 1 against 2).`);
  });
});
