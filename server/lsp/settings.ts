import { defaultSettings } from './ask.js';
import type { Settings } from './protocol.js';

type Loose = Readonly<Record<string, unknown>>;
const asRecord = (raw: unknown): Loose => (typeof raw === 'object' && raw !== null && !Array.isArray(raw) ? (raw as Loose) : {});
const words = (raw: unknown): string => (typeof raw === 'string' ? raw.trim() : '');
const within = (raw: unknown, least: number, most: number, otherwise: number): number =>
  typeof raw === 'number' && raw >= least && raw <= most ? raw : otherwise;
const yes = (raw: unknown, otherwise: boolean): boolean => (typeof raw === 'boolean' ? raw : otherwise);

/**
 * What a client sent under `planish`, made safe: anything missing or of the wrong kind takes its default, so that a slip in a
 * settings file never stops the server.
 */
export const readSettings = (raw: unknown): Settings => {
  const given = asRecord(raw);
  const display = asRecord(given.display);
  const cutting = asRecord(given.cutting);
  const booklet = asRecord(given.booklet);
  const hints = given.inlayHints;
  const hint = asRecord(hints);
  const every = typeof hints === 'boolean' ? hints : true;
  const follow = asRecord(given.picture).follow;
  return {
    display: {
      denominator: powerOfTwo(display.denominator) ?? defaultSettings.display.denominator,
      secondUnit: yes(display.secondUnit, defaultSettings.display.secondUnit),
    },
    severities: Object.fromEntries(Object.entries(asRecord(given.severities)).filter(isSeverity)),
    paper: paperNames.find((name) => name === given.paper) ?? defaultSettings.paper,
    shopFile: words(given.shopFile),
    cutting: {
      kerf: words(cutting.kerf),
      margin: words(cutting.margin),
      turnStep: within(cutting.turnStep, 1, 180, defaultSettings.cutting.turnStep),
      seconds: within(cutting.seconds, 0, 86_400, defaultSettings.cutting.seconds),
      decimalComma: yes(cutting.decimalComma, defaultSettings.cutting.decimalComma),
    },
    booklet: {
      owner: words(booklet.owner),
      creator: words(booklet.creator),
      bothUnits: yes(booklet.bothUnits, defaultSettings.booklet.bothUnits),
    },
    inlayHints: {
      blankSize: yes(hint.blankSize, every),
      values: yes(hint.values, every),
      allowance: yes(hint.allowance, every),
      bending: yes(hint.bending, every),
    },
    picture: { follow: follow === 'never' || follow === 'always' ? follow : 'on click' },
  };
};

const paperNames: readonly Settings['paper'][] = ['roll', 'a4', 'a3', 'letter', 'tabloid'];
const powerOfTwo = (raw: unknown): number | undefined =>
  typeof raw === 'number' && [1, 2, 4, 8, 16, 32, 64, 128, 256].includes(raw) ? raw : undefined;
const levels: readonly unknown[] = ['error', 'warning', 'information', 'hint', 'off'];
const isSeverity = (entry: [string, unknown]): entry is [string, Settings['severities'][string]] => levels.includes(entry[1]);
