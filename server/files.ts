/** How the core sees files: an interface with a Node, a browser and an in-memory form. Paths are absolute, with `/`. */
export interface Files {
  /** Text of a file, or undefined when there is none. Open buffers come first. */
  read(path: string): string | undefined;
  /** Real path with links resolved, for the check that `with` stays within the project's root. */
  real(path: string): string;
}
export const memoryFiles = (texts: ReadonlyMap<string, string> | Readonly<Record<string, string>>): Files => {
  const map: ReadonlyMap<string, string> = texts instanceof Map ? texts : new Map(Object.entries(texts));
  return { read: (path) => map.get(path), real: (path) => path };
};
