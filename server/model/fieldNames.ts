/** Which fields of a statement hold names, and of what kind: read off its pattern. */
import type { NameKind, Pattern } from '../../grammar/vocabulary/pattern.js';

export interface FieldNames {
  readonly refers: ReadonlyMap<string, NameKind>;
  readonly brings: ReadonlyMap<string, NameKind>;
}

export const fieldNamesOf = (pattern: Pattern): FieldNames => {
  const refers = new Map<string, NameKind>();
  const brings = new Map<string, NameKind>();
  const walk = (at: Pattern, inList: string | undefined): void => {
    switch (at.kind) {
      case 'name':
        refers.set(inList ?? at.field, at.of);
        return;
      case 'run':
        refers.set(at.field, at.of);
        return;
      case 'newName':
        brings.set(inList ?? at.field, at.of);
        return;
      case 'list':
        walk(at.item, at.field);
        return;
      case 'optional':
        walk(at.item, inList);
        return;
      case 'sequence':
      case 'anyOrder':
      case 'oneOf':
        for (const item of at.items) walk(item, inList);
        return;
      default:
        return;
    }
  };
  walk(pattern, undefined);
  return { refers, brings };
};
