/**
 * What the Planish client and server say to each other beyond the Language Server Protocol. Types and method names only:
 * nothing here runs, so that both sides may import it. Positions are UTF-16 lines and characters, as everywhere in the protocol.
 */
import type { Position, ProgressToken, Range } from 'vscode-languageserver';
import type { MovingPart } from '../fold/types.js';

export type { CompletionData } from './completionData.js';

/** Request: the picture of one part. Without `part`, the part at `position`, else the first of the file. */
export const pictureMethod = 'planish/picture';
export interface PictureParams {
  readonly uri: string;
  /** The version the asker holds; an answer for another version carries its own number, so the asker can drop it. */
  readonly version?: number;
  readonly part?: string;
  readonly position?: Position;
}
export interface PartEntry {
  readonly name: string;
  readonly kind: string;
  /** Blank size and the like, in the file's own unit: `30 1/4 × 11 in`. */
  readonly summary: string;
}
export interface PictureFeature {
  readonly id: string;
  readonly range: Range;
}
export interface PictureResult {
  readonly uri: string;
  readonly version: number;
  readonly parts: readonly PartEntry[];
  /** Name of the part drawn; undefined when the file has none. */
  readonly part: string | undefined;
  /** An `svg` element with classes and `data-id`s and no colours of its own; undefined when nothing could ever be laid out. */
  readonly svg: string | undefined;
  readonly title: string;
  /** Where each drawn feature is written. */
  readonly features: readonly PictureFeature[];
  /** True when the text is broken and this is the last good picture. */
  readonly stale: boolean;
  /** Where the part stands in the text. */
  readonly partRange: Range | undefined;
  /** Why nothing, or only an old picture, can be shown: the first error of the part, in words. */
  readonly reason: string | undefined;
}

/** Request: one part folded, to be stood in any state between flat and finished. Chooses the part as the picture does. */
export const foldedMethod = 'planish/folded';
export type FoldedParams = PictureParams;
export interface FoldedModel {
  readonly moving: MovingPart;
  /** What each step of the folding does, in words: `top.1: down 90°`. */
  readonly steps: readonly string[];
  /** In which order it is folded: as the bend plan has it once there is one, else from the outside in. `words` says so, or why not as planned. */
  readonly order: { readonly planned: boolean; readonly words: string };
  /** What each feature is called, by id, with what was measured on it; these are the ids of the flat picture. */
  readonly names: readonly { readonly id: string; readonly name: string }[];
  /** Sizes of the finished part along x, y and z, in the file's unit; empty when the fold can't be worked out. */
  readonly sizes: readonly string[];
  /** The bends that turn toward the back, by id. */
  readonly down: readonly string[];
  /** Features with an error or a warning on them. */
  readonly faults: readonly { readonly id: string; readonly severity: 'error' | 'warning' }[];
  /** What runs into what once folded, in words. */
  readonly collisions: readonly string[];
  /** What else there is to say of the whole while nothing is pointed at: how far apart its corners stand, what is not drawn. */
  readonly remarks: readonly string[];
  /** Measured places of the finished part: corners, and what runs into what. */
  readonly places: readonly FoldedPlace[];
}
export interface FoldedPlace {
  /** Features of the flat picture that meet there. */
  readonly between: readonly [string, string];
  /** x, y, z of the finished part, mm. */
  readonly at: readonly [number, number, number];
  /** A word or two beside it: `3/32 in`, `touching`, `1.5 mm too far`. */
  readonly words: string;
  /** The two want the same place. */
  readonly clash: boolean;
}
export interface FoldedResult {
  readonly uri: string;
  readonly version: number;
  readonly parts: readonly PartEntry[];
  readonly part: string | undefined;
  readonly model: FoldedModel | undefined;
  readonly title: string;
  readonly features: readonly PictureFeature[];
  /** True when the text is broken and this is the last good fold. */
  readonly stale: boolean;
  readonly partRange: Range | undefined;
  readonly reason: string | undefined;
}

/** Request: how one part is bent on the shop's brake, step by step, or what stops it. Chooses the part as the picture does. Never waits for a plan. */
export const bendingMethod = 'planish/bending';
export type BendingParams = PictureParams;
export interface BendingSheet {
  /** A feature of the flat picture. */
  readonly id: string;
  /** Corners of a convex piece, x toward the operator, y up, mm: x0, y0, x1, y1, … */
  readonly outline: readonly number[];
  /** Beyond the length of the bend, so that it passes the brake's sections by. */
  readonly beyond: boolean;
  readonly strikes: boolean;
}
/**
 * A bend seen from the end of the brake, to be moved. With the leaf at a turn t, what swings is slid by allowance · min(1, t / set) toward the clamp (−x) and
 * then turned by t about `about`; the apron only turns. mm, rad.
 */
export interface BendingMotion {
  readonly machine: readonly {
    readonly tool: 'nose' | 'beam' | 'bed' | 'apron';
    readonly outline: readonly number[];
    readonly struck: boolean;
  }[];
  readonly held: readonly BendingSheet[];
  readonly swings: readonly BendingSheet[];
  readonly about: readonly [number, number];
  readonly inside: number;
  readonly outside: number;
  readonly allowance: number;
  /** Where the sheet is before, how far the leaf goes, and where the sheet stays: sprung back, or where it strikes the most. */
  readonly from: number;
  readonly set: number;
  readonly rests: number;
}
/** Where a bend lies on the blank. */
export interface BendingPlace {
  /** Features made in this step, and in those before. */
  readonly bends: readonly string[];
  readonly done: readonly string[];
  /** The face under the nose. */
  readonly held: string | undefined;
  /** The line under the nose's edge, flat: x0, y0, x1, y1. */
  readonly line: readonly number[] | undefined;
}
export interface BendingStep extends BendingPlace {
  readonly number: number;
  /** What it is called: `left.1`. */
  readonly title: string;
  /** `90.3°`, `by hand`. */
  readonly set: string;
  /** What to do, in order. */
  readonly words: readonly string[];
  /** Where the scribed line is, when there is one. */
  readonly mark: string | undefined;
  readonly motion: BendingMotion | undefined;
  readonly fingers:
    | { readonly widths: readonly { readonly mm: number; readonly words: string }[]; readonly bend: number; readonly gap: number }
    | undefined;
}
/** A bend that stops the part. */
export interface BendingStop extends BendingPlace {
  readonly title: string;
  readonly words: string;
  readonly motion: BendingMotion | undefined;
}
export interface BendingModel {
  readonly possible: boolean;
  /** One line over all of it. */
  readonly lead: string;
  readonly steps: readonly BendingStep[];
  /** Empty when it can be bent; the one with the least against it first. */
  readonly stops: readonly BendingStop[];
  /** Changes that were tried and free it. */
  readonly cures: readonly string[];
  readonly remarks: readonly string[];
  /** The flat blank; paths are SVG path data, y turned over. */
  readonly blank: {
    readonly width: number;
    readonly height: number;
    readonly outline: string;
    readonly faces: readonly { readonly id: string; readonly path: string }[];
    readonly bends: readonly { readonly id: string; readonly line: readonly number[] }[];
  };
}
export interface BendingResult {
  readonly uri: string;
  readonly version: number;
  readonly parts: readonly PartEntry[];
  readonly part: string | undefined;
  readonly model: BendingModel | undefined;
  /** The plan is being made: `planish/pictureChanged` tells when to ask again. */
  readonly working: boolean;
  readonly title: string;
  readonly features: readonly PictureFeature[];
  readonly stale: boolean;
  readonly partRange: Range | undefined;
  readonly reason: string | undefined;
}

/** Request: which drawn features the text at a position belongs to. */
export const featureAtMethod = 'planish/featureAt';
export interface FeatureAtParams {
  readonly uri: string;
  readonly position: Position;
}
export interface FeatureAtResult {
  readonly part: string | undefined;
  /** Innermost statement's features; empty when the position draws nothing. */
  readonly ids: readonly string[];
}

/** Request: the true-size file of one part. */
export const patternMethod = 'planish/pattern';
export interface PatternParams {
  readonly uri: string;
  readonly part: string;
  readonly format: 'svg' | 'dxf' | 'pdf' | 'png' | 'glb' | 'stl';
  /** What SVG, PDF and PNG show: the flat blank at true size unless said otherwise. GLB and STL are always the folded part. */
  readonly view?: 'blank' | 'folded' | 'section';
}
export interface PatternResult {
  /** File name to offer: `gate.svg`. */
  readonly name?: string;
  /** The whole file; undefined when the part can't be laid out. */
  readonly text?: string;
  /** The whole file in base 64, for formats that are not text. */
  readonly bytes?: string;
  /** Why there is none, in words. */
  readonly reason?: string;
}

/** Request: what changed in a file since it was committed, as a page without scripts. */
export const compareMethod = 'planish/compare';
export interface CompareParams {
  readonly uri: string;
  /** For the page's one style element. */
  readonly nonce: string;
}
export interface CompareResult {
  readonly html?: string;
  /** How many parts differ. */
  readonly changed?: number;
  /** Why there is none, in words. */
  readonly reason?: string;
}

/**
 * Request: the parts of a file, or of every file under a folder, laid on sheets and lengths. It takes a while: progress goes to `workDoneToken`, and the
 * request may be cancelled.
 */
export const cutMethod = 'planish/cut';
export interface CutParams {
  readonly workDoneToken?: ProgressToken;
  /** A part file or a folder. */
  readonly uri: string;
  readonly what: 'file' | 'folder';
  /** How many times the job is made; once unless given. */
  readonly times?: number;
  /** For nesting, s; the setting unless given. */
  readonly seconds?: number;
}
export interface CutResult {
  /** By which pages and files of this job are asked for. */
  readonly id?: string;
  /** What the job is called. */
  readonly name?: string;
  /** Whether more time may find a tighter layout. */
  readonly settled?: boolean;
  /** Why there is none, in words. */
  readonly reason?: string;
}
/** Request: a job that was cut, as a page without scripts, or as files. */
export const cutFilesMethod = 'planish/cutFiles';
export interface CutFilesParams {
  readonly id: string;
  /** `page` is for reading here; `svg` and `dxf` are the nested sheets at true size, a file each; `all` is everything. */
  readonly format: 'page' | 'pdf' | 'html' | 'csv' | 'svg' | 'dxf' | 'all';
  /** For the page's one style element. */
  readonly nonce?: string;
}
export interface CutFilesResult {
  /** Text, or bytes in base 64. */
  readonly files: readonly { readonly name: string; readonly text?: string; readonly bytes?: string }[];
  readonly reason?: string;
}

/**
 * Request: the job booklet of a file, or of every file under a folder. It takes a while: progress goes to `workDoneToken`, and the request may be cancelled.
 */
export const bookletMethod = 'planish/booklet';
export interface BookletParams {
  readonly workDoneToken?: ProgressToken;
  /** A part file or a folder. */
  readonly uri: string;
  readonly what: 'file' | 'folder';
  readonly format: 'pdf' | 'html';
}
export interface BookletResult {
  /** The whole file in base 64. */
  readonly bytes?: string;
  readonly parts?: number;
  /** Of a PDF. */
  readonly sheets?: number;
  /** Errors open in the files; the booklet lists them. */
  readonly errors?: number;
  /** Why there is none, in words. */
  readonly reason?: string;
}

/** Notification from the server: a document was computed again, so its picture may have changed. */
export const pictureChangedMethod = 'planish/pictureChanged';
export interface PictureChangedParams {
  readonly uri: string;
  readonly version: number;
}

/** Commands the client owns; the server only names them, in code lenses and code actions. */
export const commands = {
  showPicture: 'planish.showPicture',
  showFolded: 'planish.showFolded',
  planBending: 'planish.planBending',
  exportPattern: 'planish.exportPattern',
  explain: 'planish.explain',
} as const;
/** Arguments of `planish.showPicture`, `planish.showFolded`, `planish.planBending` and `planish.exportPattern`. */
export type PartCommandArguments = [{ readonly uri: string; readonly part: string }];
/** Arguments of `planish.explain`. */
export type ExplainCommandArguments = [{ readonly rule: string }];

/** Request: the manual's page for a rule or a word of the language, as Markdown; undefined for a word it does not know. */
export const explainMethod = 'planish/explain';
export interface ExplainParams {
  readonly topic: string;
}
export interface ExplainResult {
  readonly markdown: string | undefined;
}

/** Request: the text of a new file. */
export const templateMethod = 'planish/template';
export interface TemplateParams {
  readonly kind: 'panel' | 'section' | 'shop';
  /** Name of the part; empty for a shop file. */
  readonly name: string;
  /** The shop's own when left out, else millimetres. */
  readonly units?: 'inch' | 'millimetre';
  /** Text of the `shop.planish` in the new file's folder, if there is one: its first sheet is then used. */
  readonly shop?: string;
}
export interface TemplateResult {
  /** The whole file; it checks clean. */
  readonly text?: string;
  /** Why there is none, in words: what is wrong with the name. */
  readonly fault?: string;
}

/** Request: what the status bar shows of the part around a position. */
export const partAtMethod = 'planish/partAt';
export interface PartAtParams {
  readonly uri: string;
  readonly position: Position;
}
export interface PartAtResult {
  readonly part: PartEntry | undefined;
}

/** The settings under `planish.` as the server reads them. */
export interface Settings {
  readonly display: {
    /** Inches are shown in fractions down to one part in this many. */
    readonly denominator: number;
    /** Show the other unit as well, on hover. */
    readonly secondUnit: boolean;
  };
  /** Severity by rule name: `error warning information hint off`. */
  readonly severities: Readonly<Record<string, 'error' | 'warning' | 'information' | 'hint' | 'off'>>;
  /** Paper that PDF patterns are tiled to; `roll` is one sheet as long as it must be. */
  readonly paper: 'roll' | 'a4' | 'a3' | 'letter' | 'tabloid';
  /** Shop file, from the workspace folder, for files that bring none. Empty for none. */
  readonly shopFile: string;
  /** How blanks are laid on sheets. */
  readonly cutting: {
    /** Sizes as written, `1/8 in`, `3 mm`; empty for the usual ones. */
    readonly kerf: string;
    readonly margin: string;
    /** Degrees. */
    readonly turnStep: number;
    readonly seconds: number;
    /** Tables for spreadsheets that part fields with `;` and write numbers with a comma. */
    readonly decimalComma: boolean;
  };
  readonly booklet: {
    /** Legal owner and creator for its data fields; empty fields are left to be written by hand. */
    readonly owner: string;
    readonly creator: string;
    /** The other unit after every size. */
    readonly bothUnits: boolean;
  };
  readonly inlayHints: {
    readonly blankSize: boolean;
    readonly values: boolean;
    readonly allowance: boolean;
    /** Step and set angle behind each bend. */
    readonly bending: boolean;
  };
  readonly picture: {
    /** When the picture follows the cursor. The server only passes it on. */
    readonly follow: 'never' | 'on click' | 'always';
  };
}
