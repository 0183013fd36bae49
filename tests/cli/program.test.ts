import { describe, expect, it } from 'vitest';
import { folder, planish } from './bench.js';

const here = folder({});

describe('a call', () => {
  it('without a command shows the help and is wrong', async () => {
    const ran = await planish(here, []);
    expect(ran.code).toBe(2);
    expect(ran.errors).toContain('planish COMMAND --help');
  });

  it('for help or the version is answered', async () => {
    expect(await planish(here, ['--help'])).toMatchObject({ code: 0, errors: '' });
    expect((await planish(here, ['--version'])).text).toMatch(/^planish \d+\.\d+\.\d+\n$/);
  });

  it.each(['check', 'measure', 'pattern', 'format', 'explain', 'new', 'serve'])('%s has help of its own', async (command) => {
    const ran = await planish(here, [command, '--help']);
    expect(ran).toMatchObject({ code: 0, errors: '' });
    expect(ran.text).toMatch(new RegExp(`^planish ${command}`));
    expect((await planish(here, ['help', command])).text).toBe(ran.text);
  });

  it('for an unknown command names the nearest', async () => {
    const ran = await planish(here, ['chek']);
    expect(ran).toMatchObject({ code: 2, text: '' });
    expect(ran.errors).toBe('There is no command chek. Did you mean check? `planish --help` lists them.\n');
    expect((await planish(here, ['constructor'])).code).toBe(2);
  });

  it('with an unknown option is wrong', async () => {
    const ran = await planish(here, ['check', '--colour']);
    expect(ran.code).toBe(2);
    expect(ran.errors).toContain('--colour');
  });

  it('for a file that is not there says so', async () => {
    for (const argv of [
      ['check', 'gate.planish'],
      ['measure', 'gate.planish'],
      ['pattern', 'gate.planish', '-o', 'x.svg'],
      ['format', 'gate.planish'],
    ]) {
      const ran = await planish(here, argv);
      expect(ran.code).toBe(2);
      expect(ran.errors).toMatch(/^There is no file (or folder )?gate\.planish\.\n$/);
    }
  });
});
