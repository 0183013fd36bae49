/** The parser: expressions by grammar rules, statements by walking the vocabulary. One instance serves every file. */
import { EmbeddedActionsParser, EOF, type IToken, type ParserMethod } from 'chevrotain';
import type { Surroundings } from './compiled.js';
import { layOut, unwritten } from './layout.js';
import { readNumber } from './numbers.js';
import { foldOperators, prefixOf } from './operators.js';
import type { Header, Listener, OpenBlock, Reader } from './reader.js';
import { type NoteReader, noteReader, strayProblem, textOf } from './remarks.js';
import { readStatements } from './statements.js';
import type { Expr, Fix, Ident, Problem, Span, Statement, Tree } from './syntax.js';
import {
  And,
  BinaryOperator,
  Close,
  Comma,
  Cursor,
  Diameter,
  DotStep,
  endOf,
  is,
  isNumber,
  isOperator,
  isWord,
  NewLine,
  NumberStart,
  Open,
  Or,
  Prefix,
  scan,
  Text,
  Times,
  tokenTypes,
  touching,
  Word,
  YesOrNo,
} from './tokens.js';
import { valueInWords } from './wording.js';

const anywhere: Surroundings = { logic: true, of: false, by: false, comma: true, want: 'any', field: '' };
const nothingRead: Expr = { kind: 'missing', span: { start: 0, end: 0 } };
// Deeper brackets than anyone writes: beyond them the rest is skipped, so that no text can exhaust the stack.
const deepest = 200;

interface CallArgument {
  readonly label: Ident | undefined;
  readonly value: Expr;
}

export class PlanishParser extends EmbeddedActionsParser implements Reader {
  text = '';
  header: Header | undefined;
  blocks: OpenBlock[] = [];
  listener: Listener | undefined;
  private problems: Problem[] = [];
  /** Stray characters, and braces that were missing or too many. */
  private strays: readonly Span[] = [];
  private notes: NoteReader = () => undefined;
  private surroundings: Surroundings = anywhere;
  private outer: Surroundings = anywhere;
  private depth = 0;
  private stopped = false;
  private end: IToken = unwritten(NewLine, 0);
  private alternatives: { ALT: () => Expr }[] | undefined;

  /** @param validated whether the grammar itself is searched for ambiguities, which a test does once instead of every start */
  constructor(validated = false) {
    super(tokenTypes, { recoveryEnabled: false, maxLookahead: 1, skipValidations: !validated });
    this.performSelfAnalysis();
  }

  /** A whole file. The statements are read by walking the vocabulary; the rule itself only names what they are made of. */
  private readonly file: ParserMethod<[], Statement[]> = this.RULE('file', () => {
    if (this.RECORDING_PHASE) {
      this.SUBRULE(this.value);
      return [];
    }
    return readStatements(this, 'file');
  });

  private readonly value: ParserMethod<[], Expr> = this.RULE('value', () => {
    const first = this.SUBRULE(this.operand);
    if (!this.RECORDING_PHASE && !this.operatorStands()) return first;
    const operands: Expr[] = [first];
    const operators: IToken[] = [];
    this.MANY({
      GATE: () => this.operatorStands(),
      DEF: () => {
        operators.push(this.CONSUME(BinaryOperator));
        operands.push(this.SUBRULE2(this.operand));
      },
    });
    return this.RECORDING_PHASE ? first : foldOperators(operands, operators);
  });

  private readonly operand: ParserMethod<[], Expr> = this.RULE('operand', () => {
    this.alternatives ??= [
      { ALT: () => this.readNumber(this.CONSUME(NumberStart)) },
      { ALT: () => this.readNamed(this.CONSUME(Word)) },
      { ALT: () => this.SUBRULE(this.bracket) },
      { ALT: () => this.SUBRULE(this.prefixed) },
      { ALT: () => this.readText(this.CONSUME(Text)) },
      { ALT: () => this.readYesNo(this.CONSUME(YesOrNo)) },
      { ALT: () => this.missingValue() },
    ];
    const found = this.OR<Expr>(this.alternatives);
    return this.RECORDING_PHASE ? found : this.withMembers(found);
  });

  private readonly prefixed: ParserMethod<[], Expr> = this.RULE('prefixed', () => {
    const sign = this.CONSUME(Prefix);
    const sound = this.RECORDING_PHASE || this.depth < deepest;
    this.depth++;
    const operand = sound ? this.SUBRULE(this.operand) : nothingRead;
    this.depth--;
    return this.readPrefixed(sign, operand);
  });

  /** `(a + b)` or the point `(x, y)`. */
  private readonly bracket: ParserMethod<[], Expr> = this.RULE('bracket', () => {
    const open = this.CONSUME(Open);
    const before = this.enter();
    const inner = this.depth > deepest ? nothingRead : this.SUBRULE(this.value);
    const rest: Expr[] = [];
    this.MANY(() => {
      this.CONSUME(Comma);
      rest.push(this.SUBRULE2(this.value));
    });
    return this.ACTION(() => {
      const end = this.closeBracket(open);
      this.leave(before);
      return this.bracketed(open, inner, rest, end);
    });
  });

  /** What stands in the brackets of a call: values, some with a label (`to 1/16`). */
  private readonly callArguments: ParserMethod<[], CallArgument[]> = this.RULE('callArguments', () => {
    const first = this.RECORDING_PHASE ? undefined : this.label();
    const args: CallArgument[] = [{ label: first, value: this.SUBRULE(this.value) }];
    this.MANY(() => {
      this.CONSUME(Comma);
      const label = this.RECORDING_PHASE ? undefined : this.label();
      args.push({ label, value: this.SUBRULE2(this.value) });
    });
    return args;
  });

  // --- what the statements ask for

  ahead(n: number): IToken {
    const token = this.LA(n);
    return token.tokenTypeIdx === EOF.tokenTypeIdx ? this.end : token;
  }
  take(): IToken {
    this.SKIP_TOKEN();
    return this.LA(0);
  }
  expression(surroundings: Surroundings): Expr {
    const before = this.surroundings;
    this.surroundings = surroundings;
    this.outer = surroundings;
    const found = this.SUBRULE(this.value);
    this.surroundings = before;
    return found;
  }
  report(span: Span, rule: string, message: string, fixes: readonly Fix[] = []): void {
    const header = this.header;
    if (header !== undefined) {
      if (header.reported) return;
      header.reported = true;
      if (this.strayBetween(header.start, this.ahead(1).startOffset)) return;
    }
    this.problems.push({ span, rule, message, fixes });
  }
  stop(): void {
    if (this.stopped) return;
    this.stopped = true;
    this.listener?.stopped(this);
    // What encloses the cursor goes on reading, but has nothing more to tell.
    this.listener = undefined;
  }
  strayBetween(start: number, end: number): boolean {
    if (this.strays.length === 0) return false;
    let low = 0;
    let high = this.strays.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.strays[middle] as Span).start < start) low = middle + 1;
      else high = middle;
    }
    const found = this.strays[low];
    return found !== undefined && found.start < end;
  }
  noteBefore(offset: number): string | undefined {
    return this.notes(offset);
  }

  // --- expressions

  private operatorStands(): boolean {
    const token = this.LA(1);
    if (!isOperator(token)) return false;
    if (!this.surroundings.logic && (is(token, And) || is(token, Or))) return false;
    return !(this.surroundings.by && is(token, Times) && token.image === '×');
  }
  private enter(): Surroundings {
    const before = this.surroundings;
    this.surroundings = anywhere;
    this.depth++;
    return before;
  }
  private leave(before: Surroundings): void {
    this.surroundings = before;
    this.depth--;
  }
  private closeBracket(open: IToken): number {
    if (is(this.ahead(1), Close)) return endOf(this.take());
    const end = endOf(this.ahead(0));
    if (!is(this.ahead(1), Cursor)) {
      this.report({ start: open.startOffset, end: endOf(open) }, 'text/missing-bracket', 'This ( is never closed: a ) is missing.', [
        { title: 'Write the missing )', edits: [{ span: { start: end, end }, text: ')' }] },
      ]);
    }
    return end;
  }
  private bracketed(open: IToken, inner: Expr, rest: readonly Expr[], end: number): Expr {
    const span = { start: open.startOffset, end };
    const [y] = rest;
    if (y === undefined) return { kind: 'paren', span, inner };
    if (rest.length > 1) {
      const third = rest[1] as Expr;
      this.report(third.span, 'text/extra-coordinate', `A point is two numbers, (x, y); here stand ${rest.length + 1}.`);
      return { kind: 'missing', span };
    }
    return { kind: 'point', span, x: inner, y };
  }
  private readNumber(token: IToken): Expr {
    return this.RECORDING_PHASE || token.image === '' ? nothingRead : readNumber(this, this.surroundings.comma, this.surroundings.of);
  }
  private readNamed(token: IToken): Expr {
    if (this.RECORDING_PHASE) {
      this.CONSUME2(Open);
      this.SUBRULE(this.callArguments);
      return nothingRead;
    }
    const name: Ident = { span: { start: token.startOffset, end: endOf(token) }, name: token.image };
    const next = this.LA(1);
    if (is(next, DotStep)) {
      const path = this.pathFrom(name);
      return { kind: 'name', span: { start: name.span.start, end: (path.at(-1) as Ident).span.end }, path };
    }
    if (!is(next, Open) || this.depth > deepest) return { kind: 'name', span: name.span, path: [name] };
    const open = this.take();
    const before = this.enter();
    const args = is(this.ahead(1), Close) ? [] : this.SUBRULE(this.callArguments);
    const end = this.closeBracket(open);
    this.leave(before);
    return { kind: 'call', span: { start: name.span.start, end }, name, args };
  }
  private pathFrom(first: Ident): Ident[] {
    const path = [first];
    for (let step = this.ahead(1); is(step, DotStep) && touching(this.ahead(0), step); step = this.ahead(1)) {
      this.take();
      path.push({ span: { start: step.startOffset + 1, end: endOf(step) }, name: step.image.slice(1) });
      if (step.image.length === 1) {
        this.report({ start: step.startOffset, end: endOf(step) }, 'text/missing-name', 'A name is wanted after this point.');
      }
    }
    return path;
  }
  private withMembers(found: Expr): Expr {
    let of = found;
    for (
      let step = this.LA(1);
      is(step, DotStep) && (of.kind === 'paren' || of.kind === 'point' || of.kind === 'call' || of.kind === 'member');
      step = this.LA(1)
    ) {
      this.take();
      const name = { span: { start: step.startOffset + 1, end: endOf(step) }, name: step.image.slice(1) };
      if (name.name === '')
        this.report({ start: step.startOffset, end: endOf(step) }, 'text/missing-name', 'A name is wanted after this point.');
      of = { kind: 'member', span: { start: of.span.start, end: name.span.end }, of, name };
    }
    return of;
  }
  private label(): Ident | undefined {
    const token = this.ahead(1);
    const next = this.ahead(2);
    if (!is(token, Word) || !(isNumber(next) || (isWord(next) && !isOperator(next)) || is(next, Cursor))) return undefined;
    if (is(next, Cursor) && token.image !== 'to') return undefined;
    this.take();
    return { span: { start: token.startOffset, end: endOf(token) }, name: token.image };
  }
  private readPrefixed(sign: IToken, operand: Expr): Expr {
    if (this.RECORDING_PHASE) return nothingRead;
    const opSpan = { start: sign.startOffset, end: endOf(sign) };
    const span = { start: opSpan.start, end: operand.span.end };
    // The diameter sign says what a hole's size is anyway.
    if (is(sign, Diameter)) return operand;
    return { kind: 'unary', span, op: prefixOf(sign), opSpan, operand };
  }
  private readText(token: IToken): Expr {
    if (this.RECORDING_PHASE) return nothingRead;
    return { kind: 'text', span: { start: token.startOffset, end: endOf(token) }, value: this.textValue(token) };
  }
  /** Text without its quotes; a missing closing quote is reported. */
  textValue(token: IToken): string {
    const { value, closed } = textOf(token);
    const end = endOf(token);
    if (!closed) {
      this.report(
        { start: token.startOffset, end },
        'text/unclosed-text',
        'The closing quote of this text is missing; a text ends in its own line.',
        [{ title: 'Write the closing quote', edits: [{ span: { start: end, end }, text: '"' }] }],
      );
    }
    return value;
  }
  private readYesNo(token: IToken): Expr {
    if (this.RECORDING_PHASE) return nothingRead;
    return { kind: 'yesno', span: { start: token.startOffset, end: endOf(token) }, value: token.image === 'yes' };
  }
  private missingValue(): Expr {
    if (this.RECORDING_PHASE) return nothingRead;
    const before = this.ahead(0);
    const end = before.startOffset >= 0 ? endOf(before) : 0;
    if (is(this.ahead(1), Cursor)) {
      this.listener?.value(this.outer, this.depth);
    } else {
      const after = this.ahead(1);
      const inside = this.depth > 0 || isOperator(before);
      const wanted = inside ? 'a value' : valueInWords(this.outer.want);
      const gap =
        isWord(after) && !is(after, Word) && !isOperator(after) ? ` \`${after.image}\` begins a statement and can't be a name.` : '';
      this.report(
        { start: Math.max(before.startOffset, 0), end },
        'text/missing-value',
        before.image === '' ? `Here ${wanted} is wanted.` : `After \`${before.image.trim()}\`, ${wanted} is wanted.${gap}`,
      );
    }
    return { kind: 'missing', span: { start: end, end } };
  }

  // --- one file

  read(text: string, listener?: Listener, cut?: (tokens: IToken[]) => void): Tree {
    const scanned = scan(text);
    const laid = layOut(text, scanned);
    cut?.(laid.tokens);
    this.text = text;
    this.notes = noteReader(text, scanned.comments);
    this.strays =
      laid.problems.length === 0
        ? scanned.strays
        : [...scanned.strays, ...laid.problems.map((p) => p.span)].sort((a, b) => a.start - b.start);
    this.problems = [...laid.problems];
    this.header = undefined;
    this.blocks = [];
    this.listener = listener;
    this.depth = 0;
    this.stopped = false;
    this.surroundings = anywhere;
    this.end = unwritten(NewLine, text.length);
    for (const stray of scanned.strays) this.problems.push(strayProblem(text, stray));
    this.input = laid.tokens;
    const statements = this.file();
    const problems = this.problems.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
    const comments = scanned.comments.map((comment) => ({ start: comment.startOffset, end: endOf(comment) }));
    // Nothing of this file stays behind in the one parser.
    this.input = [];
    this.text = '';
    this.problems = [];
    this.notes = () => undefined;
    this.strays = [];
    this.listener = undefined;
    return { text, statements, problems, comments };
  }
}

const parser = new PlanishParser();

/** Reads a file. Never throws; what can't be understood is a problem at the words at fault, and the rest of the tree stands. */
export const parse = (text: string): Tree => parser.read(text);

/** Reads a file up to the cursor: `cut` shortens the tokens, and the listener hears what might come next. */
export const parseUpTo = (text: string, listener: Listener, cut: (tokens: IToken[]) => void): void => {
  parser.read(text, listener, cut);
};
