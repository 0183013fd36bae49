/**
 * Client names of files to project paths and back. A path is absolute, with `/`; a drive letter keeps its place in front (`c:/shop/a.planish`).
 * Buffers that were never saved get a path of their own that no disk has.
 */
const unsaved = '/~unsaved~/';

export const pathOfUri = (uri: string): string => {
  const match = /^([a-zA-Z][a-zA-Z0-9+.-]*):(?:\/\/([^/?#]*))?([^?#]*)/.exec(uri);
  if (match === null) return uri;
  const [, scheme = '', host = '', raw = ''] = match;
  const path = decoded(raw);
  if (scheme.toLowerCase() !== 'file') return `${unsaved}${scheme}/${path.replace(/^\/+/, '')}`;
  if (host !== '') return `//${host}${path}`;
  const drive = /^\/([a-zA-Z]):(\/.*)?$/.exec(path);
  return drive === null ? path : `${(drive[1] as string).toLowerCase()}:${drive[2] ?? '/'}`;
};

export const uriOfPath = (path: string): string => {
  if (path.startsWith(unsaved)) {
    const [scheme = '', ...rest] = path.slice(unsaved.length).split('/');
    return `${scheme}:${rest.map(encodeURIComponent).join('/')}`;
  }
  const encoded = path.split('/').map(encodeURIComponent).join('/');
  if (path.startsWith('//')) return `file:${encoded}`;
  return path.startsWith('/') ? `file://${encoded}` : `file:///${encoded}`;
};

const decoded = (text: string): string => {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
};

export const folderOf = (path: string): string => path.slice(0, Math.max(path.lastIndexOf('/'), path.startsWith('/') ? 1 : 0)) || '/';
export const isWithin = (folder: string, path: string): boolean =>
  path === folder || path.startsWith(folder.endsWith('/') ? folder : `${folder}/`);
/** `../shop.planish`, as a `with` would write it. */
export const relativePath = (fromFile: string, toFile: string): string => {
  const from = folderOf(fromFile).split('/').filter(Boolean);
  const to = toFile.split('/').filter(Boolean);
  let same = 0;
  while (same < from.length && same < to.length - 1 && from[same] === to[same]) same++;
  return [...from.slice(same).map(() => '..'), ...to.slice(same)].join('/');
};
