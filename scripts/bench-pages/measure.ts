/** Every page asked for many times, in mixed order. */
import { quantile } from '../bench-plan/statistics.ts';
import { uniformDraws } from '../sample-forecasts/random.ts';
import { ask } from './ask.ts';
import type { FoundPage } from './find-pages.ts';
import type { RunningServer } from './server-process.ts';

export interface MeasuredPage {
  readonly path: string;
  readonly shape: string;
  readonly coldMs: number;
  readonly count: number;
  readonly medianMs: number;
  readonly p95Ms: number;
  readonly mostMs: number;
  /** Processor time of the thread that answers, which other work on the machine hardly lengthens. */
  readonly busyMs: { readonly median: number; readonly p95: number };
  /** Octets of the body, and as sent. */
  readonly octets: number;
  readonly sentOctets: number;
}

const SEED = 1;

/**
 * Asks in rounds, each with every page in another order. The first request of each was made before.
 *
 * @param goesOn asked before each round; false: no more are made, though fewer than wanted were
 */
export async function measurePages(
  { url, busyMs }: Pick<RunningServer, 'url' | 'busyMs'>,
  pages: readonly FoundPage[],
  { roundCount, goesOn = async () => true }: { roundCount: number; goesOn?: () => Promise<boolean> },
): Promise<readonly MeasuredPage[]> {
  const times = new Map(pages.map(({ path }) => [path, emptyTimes()]));
  const uniform = uniformDraws(SEED);
  for (let round = 0; round < roundCount; round++) {
    // One request at a time, so that none waits for another.
    /* oxlint-disable no-await-in-loop */
    if (!(await goesOn())) break;
    for (const { path } of mixed(pages, uniform)) {
      const before = busyMs();
      const { elapsedMs, body, sentOctets } = await ask(url, path);
      const after = busyMs();
      const of = times.get(path);
      if (of === undefined) continue;
      of.ms.push(elapsedMs);
      of.busyMs.push((after ?? Number.NaN) - (before ?? Number.NaN));
      of.octets = body.length;
      of.sentOctets = sentOctets;
    }
    /* oxlint-enable no-await-in-loop */
  }
  return pages.map(({ path, shape, coldMs }) => {
    const { ms, busyMs: busy, octets, sentOctets } = times.get(path) ?? emptyTimes();
    return {
      path,
      shape,
      coldMs,
      count: ms.length,
      medianMs: quantile(ms, 0.5),
      p95Ms: quantile(ms, 0.95),
      mostMs: quantile(ms, 1),
      busyMs: { median: quantile(busy, 0.5), p95: quantile(busy, 0.95) },
      octets,
      sentOctets,
    };
  });
}

interface Times {
  readonly ms: number[];
  readonly busyMs: number[];
  octets: number;
  sentOctets: number;
}

const emptyTimes = (): Times => ({ ms: [], busyMs: [], octets: 0, sentOctets: 0 });

/** In an order that is drawn. */
const mixed = <T>(values: readonly T[], uniform: () => number): readonly T[] =>
  values
    .map((value) => ({ value, at: uniform() }))
    .toSorted((a, b) => a.at - b.at)
    .map(({ value }) => value);
