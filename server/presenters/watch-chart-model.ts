/** What the watchkeeper's drawing shows, in the units it shows. Types only. */
import type { BlockLane, KeyEntry, StripTable, TimeAxis, TimeSpan } from './strip-model.ts';

export interface WatchChart {
  readonly title: string;
  /** How the figures are read. */
  readonly subtitle: string;
  /** Said instead of the picture. */
  readonly description: string;
  readonly axis: TimeAxis;
  readonly sleeps: readonly WatchSpan[];
  /** 02–06 on the body clock. */
  readonly lowHours: readonly WatchSpan[];
  readonly alertness: WatchLane;
  readonly lapses: WatchLane;
  readonly work: BlockLane;
  readonly key: readonly WatchKeyEntry[];
  readonly table: StripTable;
}

export interface WatchSpan extends TimeSpan {
  readonly title: string;
}

export interface WatchLane {
  readonly id: 'alertness' | 'lapses';
  readonly name: string;
  readonly unit: string;
  /** What belongs to the name, line by line. */
  readonly underName: readonly string[];
  readonly least: number;
  readonly most: number;
  readonly ticks: readonly { readonly value: number; readonly text: string }[];
  readonly epochMs: readonly number[];
  /** null: unknown there. */
  readonly values: readonly (number | null)[];
  readonly unknown: readonly TimeSpan[];
  readonly gates: readonly GateLine[];
}

export interface GateLine {
  /** For heavy, aloft and overside work; for other work outside; for anything. */
  readonly kind: 'hard' | 'deck' | 'any';
  readonly value: number;
  /** What waits beyond it, in two short lines with the figure. */
  readonly lines: readonly string[];
}

export type WatchKeyEntry =
  | Pick<KeyEntry, 'kind' | 'text'>
  | { readonly kind: 'low-hours' | 'awake-line'; readonly text: string };
