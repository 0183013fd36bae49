/**
 * The smallest pieces of the text. Every word is one sort of token, whatever it means where it stands; only the words reserved
 * everywhere have sorts of their own. Offsets only: lines and columns are worked out by whoever shows them.
 */
import { createToken, type IToken, Lexer, type TokenType } from 'chevrotain';
import { reservedWords, units } from './vocabulary/units.js';

const digits = '0123456789';
const vulgar = '½¼¾⅛⅜⅝⅞⅓⅔';
const characters = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, i) => from + i);
const none = Lexer.NA;

/** Signs between two values. */
export const BinaryOperator = createToken({ name: 'BinaryOperator', pattern: none });
/** Signs before one value. */
export const Prefix = createToken({ name: 'Prefix', pattern: none });
/** What a written number may begin with. */
export const NumberStart = createToken({ name: 'NumberStart', pattern: none });
export const YesOrNo = createToken({ name: 'YesOrNo', pattern: none });

const blank = '[ \\t\\v\\f\\u00a0\\ufeff\\u2000-\\u200a\\u202f\\u3000]';
const Blank = createToken({
  name: 'Blank',
  pattern: new RegExp(`${blank}+`),
  group: Lexer.SKIPPED,
  start_chars_hint: [' ', '\t', '\v', '\f', 0xa0, 0xfeff, ...characters(0x2000, 0x200a), 0x202f, 0x3000],
});
/** One or more line breaks with the blank between them. */
export const NewLine = createToken({
  name: 'NewLine',
  pattern: new RegExp(`[\\r\\n](?:${blank}*[\\r\\n])*`),
  start_chars_hint: ['\r', '\n'],
});
/** A note's `///` counts as a comment here; the parser tells them apart. */
export const Comment = createToken({ name: 'Comment', pattern: /\/\/[^\r\n]*/, group: 'comments', start_chars_hint: ['/'] });

// Digits/digits touching no other digit, stroke or point on either side; a comment may follow at once.
export const Fraction = createToken({
  name: 'Fraction',
  pattern: /(?<![0-9./])[0-9]+\/[0-9]+(?![0-9.]|\/(?!\/))/,
  categories: [NumberStart],
  start_chars_hint: [...digits],
});
export const Vulgar = createToken({ name: 'Vulgar', pattern: /[½¼¾⅛⅜⅝⅞⅓⅔]/, categories: [NumberStart], start_chars_hint: [...vulgar] });
// A point directly after a name, a digit or `)` is the property dot, so a path is never read as a decimal.
// The lexer drops a pattern's `u` flag, so that other alphabets need a pattern of their own, run by hand.
const wideDotStep = /(?<=[\p{L}\p{Nd}_)])\.(?:[0-9]+|[\p{L}_][\p{L}\p{Nd}_]*)?/uy;
export const DotStep = createToken({
  name: 'DotStep',
  pattern: (text: string, offset: number) => {
    wideDotStep.lastIndex = offset;
    return wideDotStep.exec(text);
  },
  line_breaks: false,
  start_chars_hint: ['.'],
});
export const Decimal = createToken({
  name: 'Decimal',
  pattern: /(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?/,
  categories: [NumberStart],
  start_chars_hint: [...digits, '.'],
});
/** Inch and foot marks, degree and per cent: units that are no words. */
export const UnitMark = createToken({
  name: 'UnitMark',
  pattern: /(?<=[0-9.½¼¾⅛⅜⅝⅞⅓⅔])["″”'′’]|[°%]/,
  start_chars_hint: ['"', '″', '”', "'", '′', '’', '°', '%'],
});
// A missing closing quote: the text ends with its line, but closing braces at the line's end stay braces.
export const Text = createToken({
  name: 'Text',
  pattern: /["“][^"”\r\n]*["”]|["“][^"”\r\n]*?(?=[\s;}]*(?:[\r\n]|$))/,
  start_chars_hint: ['"', '“'],
});

const wordEnd = '(?![A-Za-z0-9_]|[^\\x00-\\x7f])';
const reserved = (name: string, words: readonly string[], categories: TokenType[] = []): TokenType =>
  createToken({
    name,
    pattern: new RegExp(`(?:${words.join('|')})${wordEnd}`),
    categories,
    start_chars_hint: [...new Set(words.map((w) => w.charAt(0)))],
  });
export const And = reserved('And', ['and'], [BinaryOperator]);
export const Or = reserved('Or', ['or'], [BinaryOperator]);
export const Not = reserved('Not', ['not'], [Prefix]);
export const YesNo = reserved('YesNo', ['yes', 'no'], [YesOrNo]);
const elsewhere = new Set(['and', 'or', 'not', 'yes', 'no']);
export const Reserved = reserved(
  'Reserved',
  reservedWords.filter((w) => !elsewhere.has(w)),
);

export const Word = createToken({
  name: 'Word',
  pattern: new RegExp(`[A-Za-z_][A-Za-z0-9_]*${wordEnd}`),
  start_chars_hint: ['_', ...characters(65, 90), ...characters(97, 122)],
});
const wide = /[\p{L}_][\p{L}\p{Nd}_]*[²³⁴]?/uy;
/** A word of another alphabet; the layout makes it an ordinary `Word`. */
export const WideWord = createToken({
  name: 'WideWord',
  pattern: (text: string, offset: number) => {
    wide.lastIndex = offset;
    return wide.exec(text);
  },
  line_breaks: false,
  start_chars_hint: ['_', ...characters(65, 90), ...characters(97, 122), ...characters(0xaa, 0xff), ...characters(0x100, 0xffff)],
});

const sign = (name: string, pattern: RegExp | string, starts: string, categories: TokenType[] = []): TokenType =>
  createToken({ name, pattern, categories, start_chars_hint: [...starts] });
export const Minus = sign('Minus', /[-−]/, '-−', [BinaryOperator, Prefix]);
export const Plus = sign('Plus', '+', '+', [BinaryOperator, Prefix]);
export const Times = sign('Times', /[*×]/, '*×', [BinaryOperator]);
export const Divide = sign('Divide', '/', '/', [BinaryOperator]);
const Power = sign('Power', '^', '^', [BinaryOperator]);
const Compare = sign('Compare', /<=|>=|!=|[<>≤≥≠]/, '<>!≤≥≠', [BinaryOperator]);
const Equals = sign('Equals', /==?/, '=', [BinaryOperator]);
export const Diameter = sign('Diameter', /⌀|Ø(?=\s*[0-9.½¼¾⅛⅜⅝⅞⅓⅔])/, '⌀Ø', [Prefix]);
export const Hash = sign('Hash', '#', '#');
export const Comma = sign('Comma', ',', ',');
export const Semicolon = sign('Semicolon', ';', ';');
export const Open = sign('Open', '(', '(');
export const Close = sign('Close', ')', ')');
export const OpenBrace = sign('OpenBrace', '{', '{');
export const CloseBrace = sign('CloseBrace', '}', '}');
/** Where the cursor stands, when what may come there is asked for. Never found in a text. */
export const Cursor = createToken({ name: 'Cursor', pattern: none });

export const tokenTypes: TokenType[] = [
  BinaryOperator,
  Prefix,
  NumberStart,
  YesOrNo,
  Blank,
  NewLine,
  Comment,
  Fraction,
  Vulgar,
  DotStep,
  Decimal,
  UnitMark,
  Text,
  And,
  Or,
  Not,
  YesNo,
  Reserved,
  Word,
  Diameter,
  WideWord,
  Minus,
  Plus,
  Times,
  Divide,
  Power,
  Compare,
  Equals,
  Hash,
  Comma,
  Semicolon,
  Open,
  Close,
  OpenBrace,
  CloseBrace,
  Cursor,
];

const lexer = new Lexer(tokenTypes, {
  positionTracking: 'onlyOffset',
  ensureOptimizations: true,
  skipValidations: true,
  // The words for a stray character are the parser's business.
  errorMessageProvider: { buildUnexpectedCharactersMessage: () => '', buildUnableToPopLexerModeMessage: () => '' },
});

export interface Scan {
  /** With the line breaks among them. */
  readonly tokens: IToken[];
  readonly comments: readonly IToken[];
  /** Runs of characters that are no part of the language. */
  readonly strays: readonly { readonly start: number; readonly end: number }[];
}

/** Cuts a text into tokens. Never fails: what is no token is a stray. */
export const scan = (text: string): Scan => {
  const result = lexer.tokenize(text);
  const strays: { start: number; end: number }[] = [];
  for (const error of result.errors) {
    strays.push({ start: error.offset, end: error.offset + error.length });
  }
  return { tokens: result.tokens, comments: result.groups.comments ?? [], strays };
};

const kinds = (...types: readonly TokenType[]): Uint8Array => {
  const table = new Uint8Array(Math.max(...tokenTypes.map((t) => t.tokenTypeIdx as number)) + 2);
  for (const type of types) table[type.tokenTypeIdx as number] = 1;
  return table;
};
const words = kinds(Word, Reserved, And, Or, Not, YesNo);
const numberStarts = kinds(Decimal, Fraction, Vulgar);
const operators = kinds(Minus, Plus, Times, Divide, Power, Compare, Equals, And, Or);

/** A word, reserved or not. */
export const isWord = (token: IToken): boolean => words[token.tokenTypeIdx] === 1;
export const isNumber = (token: IToken): boolean => numberStarts[token.tokenTypeIdx] === 1;
export const isOperator = (token: IToken): boolean => operators[token.tokenTypeIdx] === 1;
export const is = (token: IToken, type: TokenType): boolean => token.tokenTypeIdx === type.tokenTypeIdx;
export const endOf = (token: IToken): number => token.startOffset + token.image.length;
/** No blank between the two. */
export const touching = (before: IToken, after: IToken): boolean => before.startOffset + before.image.length === after.startOffset;

const unitNames = new Map<string, string>(
  units.flatMap((unit) => unit.spellings.map((spelling): [string, string] => [spelling, unit.name])),
);
/** The canonical name of a unit as written; nothing when it is no unit. */
export const unitName = (written: string): string | undefined => unitNames.get(written);
export const unitSpellings: readonly string[] = [...unitNames.keys()];
