import { describe, expect, it } from 'vitest';
import type { FileModel } from '../../server/model/index.js';
import { build, measuredLengths } from './build.js';

const text = `units inch
let wide = 30
let tall = 11
material steel { gauge table steel }
sheet crs { material steel thickness 18 ga }
panel gate { sheet crs outline rectangle wide by 10 }
panel floor { sheet crs outline rectangle 5 by tall let x = 3 in + 2 deg }
panel lid { outline rectangle wide by tall }
`;
const keys = (model: FileModel) => Object.fromEntries(model.partNames.map((name, i) => [name, model.keys[i]]));
const changed = (before: string, after: string, options = {}) => {
  const first = build({ 'a.planish': before }, options);
  const one = first.model('a.planish');
  const was = keys(one);
  const parts = one.parts;
  const two = first.edit('a.planish', after).model('a.planish');
  const now = keys(two);
  // What is taken over must be what a fresh reading gives, findings, spans and all.
  const fresh = build({ 'a.planish': after }, options).model('a.planish');
  expect(two.parts).toEqual(fresh.parts);
  expect(now).toEqual(keys(fresh));
  const again = two.parts
    .filter((part, i) => parts[i]?.name === part.name && parts[i]?.findings === part.findings)
    .map((part) => part.name);
  return { keys: Object.keys(now).filter((name) => now[name] !== was[name]), again };
};

describe('a part is worked out anew exactly when something it reads changes', () => {
  it('not when text only moves', () => {
    expect(changed(text, text.replace('material', '\n\n// moved\nmaterial'))).toEqual({ keys: [], again: ['gate', 'floor', 'lid'] });
  });
  it('when its own text changes', () => {
    expect(changed(text, text.replace('by 10', 'by 12'))).toEqual({ keys: ['gate'], again: ['floor', 'lid'] });
  });
  it('when a value it reads changes, and only then', () => {
    expect(changed(text, text.replace('wide = 30', 'wide = 31')).keys).toEqual(['gate', 'lid']);
    expect(changed(text, text.replace('wide = 30', 'wide = 60 / 2')).keys).toEqual([]);
    expect(changed(text, text.replace('tall = 11', 'tall = wide')).keys).toEqual(['floor', 'lid']);
  });
  it('when its sheet or the metal of that changes', () => {
    expect(changed(text, text.replace('18 ga', '16 ga')).keys).toEqual(['gate', 'floor']);
    expect(changed(text, text.replace('gauge table steel', 'gauge table galvanised')).keys).toEqual(['gate', 'floor']);
    expect(changed(text, text.replace('gauge table steel', 'gauge table steel density 7850 kg/m3')).keys).toEqual(['gate', 'floor']);
  });
  it('when the file’s unit or its machines change', () => {
    expect(changed(text, text.replace('units inch', 'units millimetre')).keys).toEqual(['gate', 'floor', 'lid']);
    expect(changed(text, `${text}brake bench { leaf length 48 }`).keys).toEqual(['gate', 'floor', 'lid']);
  });
  it('when a name appears that was missing, or one it had used within comes from outside', () => {
    const missing = text.replace('let tall = 11', 'let tal = 11');
    expect(changed(missing, text).keys).toEqual(['floor', 'lid']);
    expect(changed(text, `${text}let x = 1`).keys).toEqual(['floor']);
  });
  it('when another file it reads through changes', () => {
    const files = {
      'a.planish': 'with "b.planish"\nunits inch\npanel gate { outline rectangle wide by 10 }\npanel lid { outline rectangle 1 by 2 }',
      'b.planish': 'units inch\nlet wide = 3\nlet other = 2',
    };
    const first = build(files);
    const was = keys(first.model('a.planish'));
    const same = first.edit('b.planish', 'units inch\nlet wide = 3\nlet other = 4');
    expect(keys(same.model('a.planish'))).toEqual(was);
    const inMetric = first.edit('b.planish', 'units millimetre\nlet wide = 3\nlet other = 2');
    const now = keys(inMetric.model('a.planish'));
    expect(now.gate).not.toBe(was.gate);
    expect(now.lid).toBe(was.lid);
  });
  it('when a measured size of another part changes', () => {
    const files = {
      'a.planish': 'units inch\npanel gate { outline rectangle floor.blank.width by 10 }\npanel floor { outline rectangle 1 by 2 }',
    };
    let width = 10;
    const first = build(files, { measured: () => measuredLengths({ blank: { width, height: 1 } }) });
    const was = keys(first.model('a.planish'));
    expect(keys(first.edit('a.planish', `${files['a.planish']}\n`).model('a.planish'))).toEqual(was);
    width = 11;
    const now = keys(first.edit('a.planish', `${files['a.planish']}\n`).model('a.planish'));
    expect(now.gate).not.toBe(was.gate);
    expect(now.floor).toBe(was.floor);
  });
  it('while its findings speak of places outside it', () => {
    const before = 'units inch\npanel gate { outline rectangle a by 1 let a = b let b = a }\n';
    expect(changed(before, `// moved\n${before}`).keys).toEqual(['gate']);
    const files = {
      'a.planish': 'with "b.planish"\nunits inch\npanel gate { outline rectangle wide + 1 by 10 }',
      'b.planish': 'units millimetre\nlet wide = 30',
    };
    const first = build(files);
    expect(first.model('a.planish').parts[0]?.findings[0]?.fixes[0]?.edits[0]?.span.start).toBe(30);
    const second = first.edit('b.planish', '// a line more\nunits millimetre\nlet wide = 30');
    expect(second.model('a.planish').parts[0]?.findings[0]?.fixes[0]?.edits[0]?.span.start).toBe(45);
  });
  it('and keeps what was not asked for in between', () => {
    const first = build({ 'a.planish': text });
    const parts = first.model('a.planish').parts;
    // An edit whose parts nobody looks at, then another.
    const second = first.edit('a.planish', `${text}\n`);
    expect(second.model('a.planish').partNames).toHaveLength(3);
    const third = second.edit('a.planish', `${text}\n\n`);
    expect(third.model('a.planish').parts[0]?.findings).toBe(parts[0]?.findings);
  });
  it('and sees a ring of parts as long as it is there', () => {
    const ring =
      'units inch\npanel gate { outline rectangle floor.blank.width by 1 }\npanel floor { outline rectangle gate.blank.width by 1 }\n';
    const options = {
      measured: (file: string, part: string, model: (name: string) => FileModel | undefined) =>
        model(file)?.part(part)?.broken === false ? measuredLengths({ blank: { width: 10 } }) : undefined,
    };
    const rules = (model: FileModel) => model.parts.flatMap((part) => part.findings.map((finding) => finding.rule));
    const first = build({ 'a.planish': ring }, options);
    expect(rules(first.model('a.planish'))).toContain('name/ring');
    const second = first.edit('a.planish', ring.replace('by 1 }\npanel', 'by 2 }\npanel'));
    expect(rules(second.model('a.planish'))).toContain('name/ring');
    const mended = second.edit('a.planish', ring.replace('gate.blank.width', '4'));
    expect(rules(mended.model('a.planish'))).toEqual([]);
    expect(mended.model('a.planish').part('gate')?.broken).toBe(false);
  });
});
