/** Which steps of a quantity are kept: fewer of them, and those an interval of time needs. */
import { groupBy } from '../choose-fields.ts';
import { leastOf } from '../extremes.ts';
import type { MatchedField } from '../match-field.ts';
import type { Reading } from '../quantities.table.ts';

/** The parts of a quantity in one member that hold for one time. */
export interface FieldGroup {
  readonly startEpochMs: number;
  readonly endEpochMs: number;
  readonly fields: readonly MatchedField[];
}

/** Groups whose intervals follow on one another and become one; nearly always a single one. */
export type Chain = readonly [FieldGroup, ...FieldGroup[]];

/** A step that is kept, and the instants whose weather it takes part in. */
export interface KeptStep {
  readonly chain: Chain;
  readonly startEpochMs: number;
  readonly endEpochMs: number;
  readonly usedFromEpochMs: number;
  readonly usedToEpochMs: number;
}

/** Steps wanted; a span without bounds is from -Infinity to Infinity. */
export interface WantedSteps {
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
  /** Longest distance between steps [ms]; null: all steps. */
  readonly everyMs: number | null;
  /** Steps at multiples of `everyMs` from here are kept before others. */
  readonly baseEpochMs: number;
}

/** Fields of one quantity in one member to the steps that are kept. */
export function keptSteps(fields: readonly MatchedField[], wanted: WantedSteps): readonly KeptStep[] {
  const reading = fields[0]?.row.reading ?? 'instant';
  const groups = [...groupBy(fields, (found) => `${found.startEpochMs} ${found.endEpochMs}`).values()]
    .map(groupOf)
    .toSorted((a, b) => a.endEpochMs - b.endEpochMs || b.startEpochMs - a.startEpochMs);
  const steps = isInstant(reading) ? instants(groups, wanted) : intervals(groups, wanted);
  return isInstant(reading) ? instantsInSpan(steps, wanted) : intervalsInSpan(steps, wanted, reading);
}

const isInstant = (reading: Reading): boolean => reading === 'instant' || reading === 'rate';

const groupOf = (fields: readonly MatchedField[]): FieldGroup => ({
  startEpochMs: fields[0]?.startEpochMs ?? Number.NaN,
  endEpochMs: fields[0]?.endEpochMs ?? Number.NaN,
  fields,
});

const endOf = (chain: Chain): number => (chain.at(-1) ?? chain[0]).endEpochMs;

/** First and last, those at multiples, and those without which a gap would become too long. */
function instants(groups: readonly FieldGroup[], wanted: WantedSteps): Chain[] {
  const kept: Chain[] = [];
  let lastEpochMs = -Infinity;
  for (const [i, group] of groups.entries()) {
    if (!isBoundary(groups, i, { wanted, lastEpochMs }) && i > 0) continue;
    kept.push([group]);
    lastEpochMs = group.endEpochMs;
  }
  return kept;
}

function isBoundary(
  groups: readonly FieldGroup[],
  i: number,
  { wanted, lastEpochMs }: { wanted: WantedSteps; lastEpochMs: number },
): boolean {
  const { everyMs, baseEpochMs } = wanted;
  const endEpochMs = groups[i]?.endEpochMs ?? Number.NaN;
  const next = groups[i + 1];
  if (everyMs === null || next === undefined) return true;
  return (endEpochMs - baseEpochMs) % everyMs === 0 || next.endEpochMs - lastEpochMs > everyMs;
}

/**
 * Between two boundaries one field, if it reaches back to the first of them, or several that follow on one another and
 * are joined; all of them as they are where neither is so.
 */
function intervals(groups: readonly FieldGroup[], wanted: WantedSteps): Chain[] {
  if (wanted.everyMs === null) return groups.map((group) => [group]);
  const kept: Chain[] = [];
  let run: FieldGroup[] = [];
  let lastEpochMs = leastOf(groups, ({ startEpochMs }) => startEpochMs);
  for (const [i, group] of groups.entries()) {
    run.push(group);
    const isLastOfEnd = groups[i + 1]?.endEpochMs !== group.endEpochMs;
    if (!isLastOfEnd || !isBoundary(groups, i, { wanted, lastEpochMs })) continue;
    const chain = chainTo(group, run, lastEpochMs);
    if (chain === null) for (const one of run) kept.push([one]);
    else kept.push(chain);
    lastEpochMs = group.endEpochMs;
    run = [];
  }
  return kept;
}

/** Fields of a run that follow on one another up to `last` and reach back to an instant; null where there are none. */
function chainTo(last: FieldGroup, run: readonly FieldGroup[], fromEpochMs: number): Chain | null {
  let chain: Chain = [last];
  while (chain[0].startEpochMs > fromEpochMs) {
    const [{ startEpochMs }] = chain;
    const before = run
      .filter((group) => group.endEpochMs === startEpochMs && group.startEpochMs < startEpochMs)
      .toSorted((a, b) => a.startEpochMs - b.startEpochMs)[0];
    if (before === undefined || !isAlike(before, last)) return null;
    chain = [before, ...chain];
  }
  return chain;
}

/** The same parts on the same grid. */
const isAlike = (a: FieldGroup, b: FieldGroup): boolean => layoutOf(a) === layoutOf(b);
const layoutOf = ({ fields }: FieldGroup): string =>
  fields
    .map(({ field, row }) => `${row.part} ${JSON.stringify(field.grid)}`)
    .toSorted()
    .join();

/** From the last at or before the span to the first at or after it. */
function instantsInSpan(chains: readonly Chain[], { fromEpochMs, toEpochMs }: WantedSteps): KeptStep[] {
  const ends = chains.map(endOf);
  const isReached = (ends.at(-1) ?? -Infinity) >= fromEpochMs && (ends[0] ?? Infinity) <= toEpochMs;
  if (!isReached) return [];
  const firstIndex = Math.max(
    0,
    ends.findLastIndex((end) => end <= fromEpochMs),
  );
  const afterIndex = ends.findIndex((end) => end >= toEpochMs);
  const lastIndex = afterIndex < 0 ? ends.length - 1 : Math.max(afterIndex, firstIndex);
  return chains.slice(firstIndex, lastIndex + 1).map((chain, k) => ({
    chain,
    startEpochMs: endOf(chain),
    endEpochMs: endOf(chain),
    usedFromEpochMs: k === 0 ? endOf(chain) : (ends[firstIndex + k - 1] ?? Number.NaN),
    usedToEpochMs: firstIndex + k === lastIndex ? endOf(chain) : (ends[firstIndex + k + 1] ?? Number.NaN),
  }));
}

/** All that overlap the span; and of sums the one before that begins with each, since sums are subtracted. */
function intervalsInSpan(
  chains: readonly Chain[],
  { fromEpochMs, toEpochMs }: WantedSteps,
  reading: Reading,
): KeptStep[] {
  const needed = new Set(chains.filter((chain) => endOf(chain) >= fromEpochMs && chain[0].startEpochMs <= toEpochMs));
  const successors = new Map<Chain, Chain>();
  if (reading === 'sum') {
    for (const chain of needed) {
      const before = chains.findLast(
        (other) => other[0].startEpochMs === chain[0].startEpochMs && endOf(other) < endOf(chain),
      );
      if (before !== undefined) successors.set(before, chain);
    }
    for (const before of successors.keys()) needed.add(before);
  }
  return chains
    .filter((chain) => needed.has(chain))
    .map((chain) => ({
      chain,
      startEpochMs: chain[0].startEpochMs,
      endEpochMs: endOf(chain),
      usedFromEpochMs: chain[0].startEpochMs,
      usedToEpochMs: endOf(successors.get(chain) ?? chain),
    }));
}
