import { formatInstant, formatLater, parseInstant } from './times.ts';

/** Writes the instants of one item in order, so that later ones can be short. */
export class ItemTimesWriter {
  readonly #baseEpochMs: number;
  #afterEpochMs: number;

  constructor(baseEpochMs: number) {
    this.#baseEpochMs = baseEpochMs;
    this.#afterEpochMs = baseEpochMs;
  }

  /** With its day. */
  whole(epochMs: number): string {
    this.#afterEpochMs = epochMs;
    return formatInstant(epochMs, this.#baseEpochMs);
  }

  /** As short as it may be after the one before. */
  later(epochMs: number): string {
    const text = formatLater(epochMs, { afterEpochMs: this.#afterEpochMs, baseEpochMs: this.#baseEpochMs });
    this.#afterEpochMs = epochMs;
    return text;
  }

  /** `280200-0420`. */
  span(of: { readonly startEpochMs: number; readonly endEpochMs: number }): string {
    return `${this.whole(of.startEpochMs)}-${this.later(of.endEpochMs)}`;
  }
}

/** Reads them back in the same order. */
export class ItemTimesReader {
  readonly #baseEpochMs: number;
  #afterEpochMs: number;

  constructor(baseEpochMs: number) {
    this.#baseEpochMs = baseEpochMs;
    this.#afterEpochMs = baseEpochMs;
  }

  /** An instant [epoch ms], or null. */
  read(text: string): number | null {
    const epochMs = parseInstant(text, { afterEpochMs: this.#afterEpochMs, baseEpochMs: this.#baseEpochMs });
    if (epochMs !== null) this.#afterEpochMs = epochMs;
    return epochMs;
  }

  /** Start and end, or null. */
  span(text: string): { startEpochMs: number; endEpochMs: number } | null {
    const [start, end, ...more] = text.split('-');
    if (start === undefined || end === undefined || more.length > 0) return null;
    const startEpochMs = this.read(start);
    const endEpochMs = startEpochMs === null ? null : this.read(end);
    return startEpochMs === null || endEpochMs === null ? null : { startEpochMs, endEpochMs };
  }
}
