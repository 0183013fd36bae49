/** Names in a job: what two files both call so is told apart by the file. */
export interface Named {
  readonly name: string;
  readonly file: string;
}

const tail = (file: string, steps: number): string =>
  file
    .replace(/\.planish$/, '')
    .split('/')
    .slice(-steps)
    .join('/');

/** The name of each thing; `gate (rear)` where another file has a `gate` too, with as many folders as it takes to tell the files apart. */
export const distinctNames = (things: readonly Named[]): ((thing: Named) => string) => {
  const files = new Map<string, Set<string>>();
  for (const { name, file } of things) files.set(name, (files.get(name) ?? new Set()).add(file));
  return ({ name, file }) => {
    const others = [...(files.get(name) ?? [])].filter((other) => other !== file);
    if (others.length === 0) return name;
    let steps = 1;
    while (steps < 20 && others.some((other) => tail(other, steps) === tail(file, steps))) steps++;
    return `${name} (${tail(file, steps)})`;
  };
};
