import type { Track } from '../../../lib/track/index.ts';
import { landOfTheEarth } from '../../coastline.ts';
import type { TimeTexts } from '../time-texts.ts';
import { type CoverageMap, coverageMap } from './coverage-map.ts';
import type { CoverageData, QuantityCovered } from './coverage-model.ts';
import { type CoverageTimes, coverageTimes, restOf } from './coverage-times.ts';
import { joined } from '../limit-texts.ts';
import { before, coverageSentences } from './coverage-words.ts';

/** The reach of a forecast along the way, as the page shows it. */
export interface CoverageView {
  /** What is not known, from when to when, and what follows from it. */
  readonly sentences: readonly string[];
  /** null: the way has no place. */
  readonly map: CoverageMap | null;
  readonly times: CoverageTimes;
}

export interface CoverageShown {
  readonly data: CoverageData;
  readonly track: Track | null;
  readonly missing: readonly string[];
  readonly nowEpochMs: number;
  readonly times: TimeTexts;
  readonly shipTimeOffsetMin: number;
  readonly fileName: (reference: string) => string;
}

/** Charts stand for many requests: clipping a continent takes tens of milliseconds. */
const keptMaps = new WeakMap<CoverageData, CoverageMap | null>();

export function coverageView(shown: CoverageShown): CoverageView {
  return {
    sentences: coverageSentences(shown.data, shown.times),
    map: keptMap(shown),
    times: coverageTimes(shown),
  };
}

function keptMap(shown: CoverageShown): CoverageMap | null {
  const kept = keptMaps.get(shown.data);
  if (kept !== undefined) return kept;
  const made = coverageMap({ ...shown, land: landOfTheEarth() });
  keptMaps.set(shown.data, made);
  return made;
}

/** The hours of the plan at which a quantity is known where the boat will be. */
export function alongText({ silent }: QuantityCovered, data: CoverageData, times: TimeTexts): string {
  const plan = { fromEpochMs: data.fromEpochMs, toEpochMs: data.planEndEpochMs };
  const unknown = silent.flatMap((span) => before(span, plan.toEpochMs) ?? []);
  if (unknown.length === 0) return 'at every hour of the plan';
  const known = restOf(unknown, plan).map((span) => times.span(span, 'to'));
  return known.length === 0 ? 'at no hour of the plan' : joined(known);
}
