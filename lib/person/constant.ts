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
