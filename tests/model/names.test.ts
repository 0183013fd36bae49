import { describe, expect, it } from 'vitest';
import { build, measuredLengths, modelOf } from './build.js';
import { checkFiles, checkFindings } from './check.js';

describe('names', () => {
  it('are seen in the whole block and the blocks within, in any order', () => {
    checkFindings(`units inch
let tall = wide / 2
let wide = 30
panel gate {
  outline rectangle across by tall
  let across = wide - clear
  let clear = 1/8
  repeat 2 every step along x as i { let y = i * step  hole 1/4 at (1, y) }
  let step = 3
}`);
  });
  it('may not repeat a name from outside, nor stand twice in one place', () => {
    checkFindings(`units inch
let wide = 30
let wide = 31
//  ^^^^ name/repeated: There is already a value wide in this file. Give this one another name.
panel gate {
  let wide = 12
//    ^^^^ name/repeated: wide already means a value outside these braces, and can't mean another one within. Give this one another name.
  let tall = 2
  let tall = 3
//    ^^^^ name/repeated: tall is already given in these braces. Give one of them another name.
  outline rectangle wide by tall
  repeat 2 every 1 along x as tall { hole 1/4 at (1, 1) }
//                            ^^^^ name/repeated: tall already means a value outside these braces, and can't mean another one within. Give this one another name.
}
panel gate { outline rectangle 1 by 1 }
//    ^^^^ name/repeated: There is already a part gate in this file. Give this one another name.`);
  });
  it('have a space of their own for each kind', () => {
    checkFindings(`units millimetre
let gate = 30
material gate { density 7850 kg/m3 }
sheet gate { material gate thickness 1 }
panel gate { sheet gate outline rectangle gate by gate }`);
  });
  it('that are unknown offer the nearest ones', () => {
    const text = `units inch
let gate_width = 30
sheet crs_18 { thickness 1/16 }
panel gate {
  sheet crs_81
//      ^^^^^^ name/unknown: There is no sheet crs_81 in sight. Did you mean crs_18?
  outline rectangle gate_widht by depth
//                  ^^^^^^^^^^ name/unknown: There is no value gate_widht in sight. Did you mean gate_width?
//                                ^^^^^ name/unknown: There is no value depth in sight. Give it a value: let depth = …
}`;
    checkFindings(text);
    const [sheet] = modelOf(text).part('gate')?.findings ?? [];
    expect(sheet?.fixes).toEqual([{ title: 'Change to crs_18', edits: [{ span: sheet?.span, text: 'crs_18' }] }]);
  });
  it('of edges and flanges are those of the part', () => {
    checkFindings(`units inch
panel gate {
  outline rectangle 30 by 11
  edge tpo { flange 1 up }
//     ^^^ name/unknown: There is no edge tpo here. Did you mean top?
  edge top { flange 1 up  flange 1/2 up as lip { edge left, top { flange 1/4 up } } }
//                                                          ^^^ name/unknown: There is no edge top here. There is left, right and free.
  hole 1/4 on lap at (1, 1/4)
//            ^^^ name/unknown: There is no flange lap here. Did you mean lip?
  hole 1/4 on top at (1, 1/4)
  hole 1/4 on top.2 at (1, 1/4)
  hole 1/4 on left at (1, 1/4)
//            ^^^^ name/unknown: There is no flange left here. There is top.1, lip and lip.left.1.
  corner top lft radius 1/4
//           ^^^ name/unknown: There is no edge lft here. Did you mean left?
}`);
  });
  it('that are a part or a file ask for what of it', () => {
    checkFiles({
      'a.planish': `with "b.planish" as bench
units inch
panel gate { outline rectangle 1 by 1 }
let a = gate
//      ^^^^ name/unknown: gate is a part, not a value. Say which of its sizes: gate.blank.width.
let b = bench
//      ^^^^^ name/unknown: bench is a file, not a value. Say which of its values: bench.width.
let c = bench.wide + 1
let d = bench.wid + 1
//            ^^^ name/unknown: bench has no value wid. Did you mean wide?
let e = c.x
//        ^ name/unknown-property: c is a length; only points have .x and .y.
let f = nothing.x
//      ^^^^^^^ name/unknown: There is no part or value nothing in sight. A path begins with a part, a point, or a file brought with a name.`,
      'b.planish': 'units inch\nlet wide = 30 in',
    });
  });
});

describe('rings', () => {
  it('are one finding that lists its members', () => {
    checkFindings(`units inch
let a = b + 1
//  ^ name/ring: These are worked out from one another, in a ring: a → b → c → a. Give one of them a value of its own.
let b = c * 2
let c = a
let d = d
//  ^ name/ring: d is worked out from itself. Give it a value that doesn't need d.
let e = a + d
section s { length c }`);
  });
  it('are found through two files', () => {
    checkFiles({
      'a.planish': `with "b.planish" as b
units inch
let one = b.two
//  ^^^ name/ring: These are worked out from one another, in a ring: one → two → one. Give one of them a value of its own.`,
      'b.planish': 'with "a.planish" as a\nunits inch\nlet two = a.one',
    });
  });
  it('of parts that measure one another are found too', () => {
    checkFindings(
      `units inch
panel gate { outline rectangle floor.blank.width by 1 }
//    ^^^^ name/ring: These are measured from one another, in a ring: gate → floor → gate. Give one of them a size that doesn’t come from the others.
panel floor { outline rectangle gate.blank.width by 1 }`,
      {
        measured: (file, part, model) =>
          model(file)?.part(part)?.broken === false ? measuredLengths({ blank: { width: 10 } }) : undefined,
      },
    );
  });
  it('do not come of a chain, however long', () => {
    const chain = Array.from({ length: 300 }, (_, i) => `let v${i} = v${i + 1} + 1`).join('\n');
    checkFindings(`units inch\n${chain}\nlet v300 = 1\nsection s { length v0 }`);
    const longer = Array.from({ length: 3000 }, (_, i) => `let v${i} = v${i + 1} + 1`).join('\n');
    const findings = modelOf(`units inch\n${longer}\nlet v3000 = 1\nsection s { length v0 }`).findings;
    expect([...new Set(findings.map((finding) => finding.rule))]).toEqual(['name/long-chain']);
  });
});

describe('with', () => {
  it('brings a file’s own names, not those it brings itself', () => {
    checkFiles({
      'a.planish': `with "b.planish"
units inch
let x = from_b + 1
let y = from_c + 1
//      ^^^^^^ name/unknown: There is no value from_c in sight. Did you mean from_b?`,
      'b.planish': 'with "c.planish"\nunits inch\nlet from_b = 1',
      'c.planish': 'units inch\nlet from_c = 1',
    });
  });
  it('dots the names of a file brought with as', () => {
    const built = build({
      'a.planish':
        'with "shop/bench.planish" as bench\nunits inch\npanel gate { sheet bench.crs_12 outline rectangle bench.p.x by 18 ga of bench.steel }',
      'shop/bench.planish':
        'units millimetre\nlet p = (50, 60)\nmaterial steel { gauge table steel }\nsheet crs_12 { material steel thickness 1.2 }',
    });
    const gate = built.model('a.planish').part('gate');
    if (gate?.kind !== 'panel') throw new Error('no panel');
    expect(gate.findings).toEqual([]);
    expect(gate.sheet?.value).toMatchObject({
      name: 'crs_12',
      thickness: 1.2,
      file: '/job/shop/bench.planish',
      material: { name: 'steel' },
    });
    expect(gate.outline?.edges[0]?.to.x).toBeCloseTo(50, 9);
  });
  it('lets two files bring each other', () => {
    const built = build({
      'a.planish': 'with "b.planish"\nunits inch\nlet one = 1\nsection s { length two * 3 }',
      'b.planish': 'with "a.planish"\nunits inch\nlet two = one + 1\nsection t { length two }',
    });
    const length = (file: string, name: string) => {
      const part = built.model(file).part(name);
      return part?.kind === 'section' ? part.length?.value : undefined;
    };
    expect(length('a.planish', 's')).toBeCloseTo(6 * 25.4, 9);
    expect(length('b.planish', 't')).toBeCloseTo(2 * 25.4, 9);
  });
  it('says clearly what is wrong with a path', () => {
    checkFiles(
      {
        'a.planish': `with "nowhere.planish"
//   ^^^^^^^^^^^^^^^^^ name/file-missing: There is no file "nowhere.planish" here. The path counts from this file’s own folder.
with "b"
//   ^^^ name/file-missing: There is no file "b" here. The path counts from this file’s own folder. Part files end in .planish.
with "a.planish"
//   ^^^^^^^^^^^ name/file-itself: A file can’t bring itself; its own names are in sight already. Take this line out.
with "../secrets.planish"
//   ^^^^^^^^^^^^^^^^^^^^ name/file-outside: "../secrets.planish" lies outside the project’s folder, and files can only be brought from within it. Put a copy beside this file.
with "/etc/passwd"
//   ^^^^^^^^^^^^^ name/file-outside: "/etc/passwd" lies outside the project’s folder, and files can only be brought from within it. Put a copy beside this file.
with "link.planish"
//   ^^^^^^^^^^^^^^ name/file-outside: "link.planish" lies outside the project’s folder, and files can only be brought from within it. Put a copy beside this file.
with "shop\\b.planish"
//   ^^^^^^^^^^^^^^^^ name/file-missing: Folders in a path are parted by /, on every machine: "shop/b.planish".
with "b.planish"
with "./b.planish"
//   ^^^^^^^^^^^^^ name/brought-twice (warning): b.planish is brought already. Once is enough.
with "b.planish" as bench
units inch
let x = maybe_in_the_missing_file + 1`,
        'b.planish': 'units inch',
        'link.planish': 'units inch',
        '/secrets.planish': 'units inch',
      },
      { real: (path) => (path === '/job/link.planish' ? '/etc/passwd' : path) },
    );
  });
  it('reports a name from two files where it is used, not before', () => {
    checkFiles({
      'a.planish': `with "b.planish"
with "c.planish"
units inch
let x = shared + 1
//      ^^^^^^ name/clash: shared is in b.planish and c.planish, so it can't be told which is meant. Bring one of the files with a name of its own (with "…" as bench) and write bench.shared.`,
      'b.planish': 'units inch\nlet shared = 1\nlet other = 1',
      'c.planish': 'units inch\nlet shared = 2\nlet other = 2',
    });
  });
  it('takes the shop file for files that bring none', () => {
    const files = {
      'a.planish': 'units inch\npanel gate { sheet crs_12 outline rectangle 1 by 1 }',
      'shop.planish': 'units millimetre\nsheet crs_12 { thickness 1.2 }\nbrake bench { leaf length 1220 }',
    };
    const gate = build(files, { shopFile: '/job/shop.planish' }).model('a.planish').part('gate');
    expect(gate?.findings).toEqual([]);
    expect(gate?.brakes.map((brake) => brake.length)).toEqual([1220]);
    expect(
      build(files)
        .model('a.planish')
        .part('gate')
        ?.findings.map((finding) => finding.rule),
    ).toEqual(['name/unknown']);
  });
});

describe('measured sizes', () => {
  const measured = () =>
    measuredLengths({ blank: { width: 800, height: 300 }, bends: { top: { 1: { allowance: 2 }, 2: { allowance: 3 } } } });
  it('are read by other parts and at the top, with `all` inside max and the like', () => {
    checkFindings(
      `units millimetre
panel gate { outline rectangle 1 by 1 }
section rail { length gate.blank.width / 2 }
check gate.blank.width <= 900
check gate.blank.width <= 700 "too wide for the shear"
//    ^^^^^^^^^^^^^^^^^^^^^^^ check/failed: too wide for the shear: gate.blank.width <= 700 doesn’t hold (800 mm against 700 mm).
check max(gate.bends.top.all.allowance) = 3
check gate.bends.top.all.allowance = 3
//                   ^^^ name/several-values: gate.bends.top.all.allowance is 2 values. Take min, max or sum of them: max(gate.bends.top.all.allowance).
check gate.blank.widht < 1
//               ^^^^^ name/unknown-property: gate.blank has no widht. There is width and height.
check gate.blank < 1
//         ^^^^^ name/unknown-property: gate.blank isn't one size. Say which: width and height.`,
      { measured },
    );
  });
  it('of the part itself wait for its blank, and only in its checks', () => {
    const text = `units inch
panel gate {
  outline rectangle gate.blank.width by 1
//                  ^^^^ name/own-measure: gate is being made here, so its finished sizes aren't known yet. They can be read in its own check, and by other parts.
  let most = 30
  check gate.blank.width <= most "must come out of an offcut"
//      ^^^^^^^^^^^^^^^^^^^^^^^^ check/failed: must come out of an offcut: gate.blank.width <= most doesn’t hold (31 1/2− in against 30 in).
  check gate.blank.height <= most
}`;
    checkFindings(text, { measured });
  });
  it('leave a check undecided while something is broken', () => {
    checkFindings(`units inch
panel gate {
  outline rectangle 1 by 1
  check gate.blank.width <= 3
//      ^^^^^^^^^^^^^^^^^^^^^ check/not-decided (information): gate.blank.width <= 3: not decided, since something it reads can’t be worked out.
}`);
  });
});
