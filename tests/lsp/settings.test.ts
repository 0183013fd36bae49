import { expect, it } from 'vitest';
import { defaultSettings } from '../../server/lsp/ask.js';
import { readSettings } from '../../server/lsp/settings.js';

it('takes what is well formed and leaves the rest at its usual value', () => {
  expect(
    readSettings({
      display: { denominator: 16, secondUnit: 'yes' },
      severities: { 'bend/too-near': 'off', 'hole/too-small': 'loud' },
      paper: 'a3',
      shopFile: ' shop.planish ',
      cutting: { kerf: ' 1/8 in ', margin: 6, turnStep: 0, seconds: 30 },
      booklet: { owner: ' Bench 4 ', creator: 7, bothUnits: true },
      inlayHints: { values: false },
      picture: { follow: 'always' },
    }),
  ).toEqual({
    display: { denominator: 16, secondUnit: true },
    severities: { 'bend/too-near': 'off' },
    paper: 'a3',
    shopFile: 'shop.planish',
    cutting: { kerf: '1/8 in', margin: '', turnStep: 90, seconds: 30, decimalComma: false },
    booklet: { owner: 'Bench 4', creator: '', bothUnits: true },
    inlayHints: { blankSize: true, values: false, allowance: true, bending: true },
    picture: { follow: 'always' },
  });
});

it('one switch may turn every hint off', () => {
  expect(readSettings({ inlayHints: false }).inlayHints).toEqual({ blankSize: false, values: false, allowance: false, bending: false });
});

it.each([
  undefined,
  null,
  7,
  'planish',
  [],
  { display: null, severities: [], shopFile: 3, picture: 'never' },
  { display: { denominator: 10 } },
  { paper: 'a5' },
])('a slip in a settings file (%j) costs nothing', (raw) => expect(readSettings(raw)).toEqual(defaultSettings));
