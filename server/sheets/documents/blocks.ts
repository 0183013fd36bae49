/** What a document says, before it is set on pages or written as a web page: the one content that PDF and HTML share. */
import type { Mark } from '../pages/page.js';

export interface Column {
  readonly title: string;
  /** Share of the width, against the others'. */
  readonly share: number;
  readonly align?: 'left' | 'right' | 'middle';
  readonly bold?: boolean;
}
/** A drawing within the text: its marks count from its own lower left corner, mm on paper. */
export interface Figure {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
  readonly caption?: string;
  /** What it shows, for people who can't see it. */
  readonly words: string;
}
export interface FormCell {
  readonly name: string;
  readonly value?: string;
  /** Share of the row's width; 1 unless given. */
  readonly share?: number;
}
/** What may stand within another block. */
export type InnerBlock =
  | { readonly kind: 'heading'; readonly level: 1 | 2 | 3; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string; readonly size?: number; readonly bold?: boolean }
  | { readonly kind: 'list'; readonly items: readonly string[]; readonly mark: 'tick' | 'dot' | 'number' }
  | {
      readonly kind: 'table';
      readonly columns: readonly Column[];
      readonly rows: readonly (readonly string[])[];
      /** A box to tick stands before every row. */
      readonly tick?: boolean;
      /** Rows that begin a group are set bold, by index. */
      readonly groups?: readonly number[];
    }
  | { readonly kind: 'figures'; readonly figures: readonly Figure[] }
  /** Words that keep somebody from being hurt: framed, never parted over two pages. */
  | { readonly kind: 'caution'; readonly title: string; readonly items: readonly string[] }
  /** Lines to write on: measured values, names. */
  | { readonly kind: 'blanks'; readonly fields: readonly string[] }
  /** Names and what stands for them; the names take `names` mm, 48 unless given. */
  | { readonly kind: 'fields'; readonly rows: readonly (readonly [string, string])[]; readonly names?: number }
  /** Framed cells, a small name over what stands in each; what is left out is written by hand. */
  | { readonly kind: 'form'; readonly rows: readonly (readonly FormCell[])[] }
  /** A step of the work: its pictures, and under them what is done; never parted over two pages. */
  | {
      readonly kind: 'card';
      readonly figures: readonly Figure[];
      readonly title: string;
      readonly lines: readonly string[];
      /** A box to tick stands before the title. */
      readonly tick?: boolean;
    }
  /** Text to be typed as it stands, line by line. */
  | { readonly kind: 'typed'; readonly text: string }
  /** Blocks side by side, never parted over two pages. */
  | { readonly kind: 'side'; readonly parts: readonly { readonly share: number; readonly blocks: readonly InnerBlock[] }[] }
  /** Blocks that stay on one page while they go on one. */
  | { readonly kind: 'kept'; readonly blocks: readonly InnerBlock[] }
  /** What the document contains and on which sheet: its headings of the first level, by their order. */
  | { readonly kind: 'contents' }
  | { readonly kind: 'gap'; readonly height: number };
export type Block =
  | InnerBlock
  /** Read down the first column, then down the next; as even as they come, over as many pages as they take. */
  | { readonly kind: 'columns'; readonly count: number; readonly blocks: readonly InnerBlock[] }
  /** Where less than `unless` mm are left, when that is given. */
  | { readonly kind: 'new page'; readonly unless?: number };

/** The data fields of a title block. Source: ISO 7200:2004. Fields left out are printed empty, to be written by hand. */
export interface TitleBlock {
  readonly title: string;
  readonly documentType: string;
  readonly owner?: string;
  readonly identification?: string;
  readonly date: string;
  readonly creator?: string;
  readonly approver?: string;
  readonly revision?: string;
}

/** Headings of the first level, in order. */
export const chaptersOf = (blocks: readonly Block[]): readonly string[] =>
  blocks.flatMap((block): readonly string[] => {
    switch (block.kind) {
      case 'heading':
        return block.level === 1 ? [block.text] : [];
      case 'kept':
      case 'columns':
        return chaptersOf(block.blocks);
      case 'side':
        return block.parts.flatMap((part) => chaptersOf(part.blocks));
      default:
        return [];
    }
  });
