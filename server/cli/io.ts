/** Where a command writes and what it may suppose about the reader. Commands never touch the process itself, so that tests can run them. */
export interface Io {
  readonly write: (text: string) => void;
  readonly writeError: (text: string) => void;
  /** Absolute, the folder stood in. */
  readonly cwd: string;
  /** Width of the terminal; Infinity in a pipe, where nothing is wrapped. */
  readonly columns: number;
  readonly colour: boolean;
  /** A person watches: progress may be shown on the error stream. */
  readonly interactive: boolean;
  /** Ends `--watch`. */
  readonly stop?: AbortSignal;
}

/** Exit codes of every command. */
export const exit = { fine: 0, findings: 1, call: 2, fault: 3 } as const;

const callMark = Symbol('call');

/** The call itself was wrong: words for the person who made it, exit code 2. */
export const callError = (message: string): Error => Object.assign(new Error(message), { [callMark]: true });

/** The message of an error that is the caller's own to mend; undefined for faults of the program. */
export const callMessage = (error: unknown): string | undefined => {
  if (!(error instanceof Error)) return undefined;
  if (callMark in error) return error.message;
  const code = 'code' in error ? String(error.code) : '';
  return code.startsWith('ERR_PARSE_ARGS') ? (error.message.split('. ')[0] ?? error.message) : undefined;
};
