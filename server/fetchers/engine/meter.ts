import type { World } from './world.ts';

export type FetchPhase =
  | 'estimating'
  | 'fetching'
  | 'waiting'
  | 'checking'
  | 'storing'
  | 'done'
  | 'failed'
  | 'cancelled';

/** How far a fetch is. */
export interface FetchProgress {
  readonly phase: FetchPhase;
  /** File at work, from 1. */
  readonly fileNumber: number;
  readonly fileCount: number;
  /** Octets there, of earlier runs of this fetch too. */
  readonly gotOctets: number;
  /** Octets in all; null: not known. */
  readonly allOctets: number | null;
  /** Some of `allOctets` is a guess. */
  readonly isAllEstimated: boolean;
  /** Mean of the last 20 s; null until something has come. */
  readonly octetsPerS: number | null;
  /** Time left at that rate [s]; null: not known. */
  readonly leftS: number | null;
  /** While waiting: until when, and why. */
  readonly waitUntilEpochMs: number | null;
  readonly waitReason: string | null;
}

/** Counts what comes. */
export interface Meter {
  /** Octets of one file there now, and all of them; null: not known yet. */
  setFile(fileNumber: number, file: { gotOctets: number; allOctets: number | null }): void;
  /** Octets that have just come over the line. */
  came(octets: number): void;
  setPhase(phase: FetchPhase): void;
  setWait(waitUntilEpochMs: number, waitReason: string): void;
  progress(): FetchProgress;
}

const RATE_SPAN_MS = 20_000;
const RATE_STEP_MS = 500;

/** @param guessedOctets for each file, what it is thought to be; null: no idea */
export function makeMeter(guessedOctets: readonly (number | null)[], world: Pick<World, 'nowEpochMs'>): Meter {
  const files = guessedOctets.map((guess) => ({ gotOctets: 0, allOctets: null as number | null, guess }));
  const samples: { epochMs: number; octets: number }[] = [];
  let cameOctets = 0;
  let state = {
    phase: 'estimating' as FetchPhase,
    fileNumber: 1,
    waitUntilEpochMs: null as number | null,
    waitReason: null as string | null,
  };
  const sample = (): void => {
    const epochMs = world.nowEpochMs();
    const last = samples.at(-1);
    if (last === undefined || epochMs - last.epochMs >= RATE_STEP_MS) samples.push({ epochMs, octets: cameOctets });
    while (samples.length > 2 && epochMs - (samples[0]?.epochMs ?? epochMs) > RATE_SPAN_MS) samples.shift();
  };
  const rate = (): number | null => {
    const [first] = samples;
    const passedMs = world.nowEpochMs() - (first?.epochMs ?? Infinity);
    return first === undefined || passedMs <= 0 || cameOctets === first.octets
      ? null
      : ((cameOctets - first.octets) / passedMs) * 1000;
  };
  return {
    setFile: (fileNumber, { gotOctets, allOctets }) => {
      const file = files[fileNumber - 1];
      if (file !== undefined) Object.assign(file, { gotOctets, allOctets });
      state = { ...state, fileNumber };
    },
    came: (octets) => {
      cameOctets += octets;
      sample();
    },
    setPhase: (phase) => {
      state = { ...state, phase, waitUntilEpochMs: null, waitReason: null };
    },
    setWait: (waitUntilEpochMs, waitReason) => {
      state = { ...state, phase: 'waiting', waitUntilEpochMs, waitReason };
    },
    progress: () => {
      const gotOctets = files.reduce((sum, file) => sum + file.gotOctets, 0);
      const allOctets = sumOrNull(files.map((file) => file.allOctets ?? file.guess));
      const octetsPerS = rate();
      const leftS = allOctets === null || octetsPerS === null ? null : Math.max(0, allOctets - gotOctets) / octetsPerS;
      const isAllEstimated = files.some((file) => file.allOctets === null);
      return { ...state, fileCount: files.length, gotOctets, allOctets, isAllEstimated, octetsPerS, leftS };
    },
  };
}

const sumOrNull = (numbers: readonly (number | null)[]): number | null =>
  numbers.reduce<number | null>((sum, number) => (sum === null || number === null ? null : sum + number), 0);
