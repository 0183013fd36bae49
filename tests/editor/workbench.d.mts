export const chromiumPath: string;
export const chromiumArguments: string[];
export const ensureInstalled: () => void;
export const freePort: () => Promise<number>;
export const prepare: (folder: string, settings?: Readonly<Record<string, unknown>>) => void;
export const installVsix: (folder: string, vsix: string) => Promise<string>;
export const start: (
  folder: string,
  options?: { port?: number; extra?: Readonly<Record<string, string>>; development?: boolean },
) => Promise<{
  url: string;
  log: string;
  pageUrl: (workspace: string, payload?: readonly (readonly [string, string])[]) => string;
  uri: (file: string) => string;
  stop: () => Promise<void>;
}>;
