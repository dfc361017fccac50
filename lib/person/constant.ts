import type { SourceId } from '../sources/index.ts';

/** A number with its unit and where it comes from. */
export interface Constant {
  readonly value: number;
  readonly unit: string;
  /** null: an engineering choice or common practice, no source. */
  readonly sourceId: SourceId | null;
  /** How it follows from the source, or why it was chosen. */
  readonly note: string;
}

/** Makes constants of one origin; without a source it is a choice or common practice, and the note says which. */
export const constantsFrom =
  (sourceId: SourceId | null, note: string) =>
  (x: number, unit: string): Constant => ({ value: x, unit, sourceId, note });

/** Constants that we have chosen. */
export const choice = constantsFrom(null, 'engineering choice, no source');
