/** Offsets to lines and columns and back. Offsets and columns count UTF-16 code units, as editors and the language-server protocol do. */

export interface LinePosition {
  /** From 0. */
  readonly line: number;
  /** From 0, in UTF-16 code units from the start of the line. */
  readonly column: number;
}
export interface LineIndex {
  readonly lineCount: number;
  /** Offsets outside the text are drawn in to its ends. */
  readonly position: (offset: number) => LinePosition;
  /** A column past the end of its line means the end of that line. */
  readonly offset: (position: LinePosition) => number;
}

/** Line breaks are `\n`, `\r\n` and `\r`, the three that the language-server protocol knows. */
export const lineIndex = (text: string): LineIndex => {
  const starts: number[] = [0];
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === 10 || (code === 13 && text.charCodeAt(at + 1) !== 10)) starts.push(at + 1);
  }
  const startOf = (line: number): number => starts[line] ?? text.length;
  const endOf = (line: number): number => {
    if (line + 1 >= starts.length) return text.length;
    const next = startOf(line + 1);
    return text.charCodeAt(next - 1) === 10 && text.charCodeAt(next - 2) === 13 ? next - 2 : next - 1;
  };
  return {
    lineCount: starts.length,
    position: (offset) => {
      const wanted = Math.min(Math.max(offset, 0), text.length);
      let low = 0;
      let high = starts.length - 1;
      while (low < high) {
        const middle = (low + high + 1) >> 1;
        if (startOf(middle) <= wanted) low = middle;
        else high = middle - 1;
      }
      return { line: low, column: wanted - startOf(low) };
    },
    offset: ({ line, column }) => {
      if (line < 0) return 0;
      if (line >= starts.length) return text.length;
      return Math.min(startOf(line) + Math.max(column, 0), endOf(line));
    },
  };
};
