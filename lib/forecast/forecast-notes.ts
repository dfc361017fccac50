/** Sentences about how a forecast was put together. */
import type { Aspect, GribField } from '../grib/index.ts';
import { formatUtc, MS_PER_H } from '../time/index.ts';
import type { SingleFields } from './choose-duplicates.ts';
import type { Series } from './frame.ts';
import { quantityOf, type QuantityId } from './quantity.ts';
import { LONGEST_STEP_H } from './time-bracket.ts';

/** What a file holds beside forecasts: means, chances and parts of the sea cannot stand for the weather. */
export function memberNotes(fields: readonly GribField[]): string[] {
  const counted = (is: (field: GribField) => boolean, what: string): string[] => {
    const count = fields.filter(is).length;
    return count === 0 ? [] : [`${count} fields are ${what}`];
  };
  const isAspect =
    (...kinds: readonly Aspect['kind'][]) =>
    ({ aspect }: GribField): boolean =>
      aspect !== null && kinds.includes(aspect.kind);
  return [
    ...counted(
      ({ derived }) => derived !== null,
      'means or spreads of an ensemble; they are not used, only its members are.',
    ),
    ...counted(
      isAspect('probability', 'percentile'),
      'probabilities or percentiles of an ensemble; they are not used, only its members are.',
    ),
    ...counted(isAspect('wave-periods'), 'waves of a band of periods; they are not used, only the whole sea is.'),
    ...counted(isAspect('area', 'reforecast', 'error'), 'errors, reforecasts or values over areas; they are not used.'),
  ];
}

/** Fields that came more than once. */
export function repeatNotes(quantity: QuantityId, single: SingleFields): string[] {
  const { name } = quantityOf(quantity);
  const notes: string[] = [];
  if (single.repeatedCount > 0) notes.push(`${name}: ${single.repeatedCount} repeated fields are left out.`);
  if (single.otherGridCount > 0)
    notes.push(
      `${name}: ${single.otherGridCount} fields are left out, because the same hours are there on a better grid.`,
    );
  return notes;
}

/** Times without values, in the series with the fewest: gaps too long to draw a straight line across, any between intervals. */
export function gapNotes(quantity: QuantityId, members: ReadonlyMap<string, Series>): string[] {
  const gaps = [...members.values()].map(gapsOf).toSorted((a, b) => a.length - b.length)[0] ?? [];
  const [first, last] = [gaps[0], gaps.at(-1)];
  if (first === undefined || last === undefined) return [];
  const { name } = quantityOf(quantity);
  const runs = runsOf(gaps);
  if (runs.length <= MOST_SENTENCES) return runs.map((run) => `${name}: ${runWords(run)}`);
  const missingMs = gaps.reduce((sum, gap) => sum + gap.toEpochMs - gap.fromEpochMs, 0);
  const span = { fromEpochMs: first.fromEpochMs, toEpochMs: last.nextEpochMs };
  return [
    `${name}: nothing for ${inHours(missingMs)} of ${inHours(span.toEpochMs - span.fromEpochMs)} h between ` +
      `${formatUtc(span.fromEpochMs)} and ${formatUtc(span.toEpochMs)}; these hours are unknown.`,
  ];
}

/** More gaps than these are counted, not told one by one. */
const MOST_SENTENCES = 4;

/** Nothing from an instant to another; then values to a third. */
interface Gap {
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
  readonly nextEpochMs: number;
}

function gapsOf({ kind, frames }: Series): Gap[] {
  const shortestMs = kind === 'instant' ? LONGEST_STEP_H * MS_PER_H : 0;
  const gaps: Gap[] = [];
  let reachedEpochMs = frames[0]?.endEpochMs ?? 0;
  for (const { startEpochMs, endEpochMs } of frames.slice(1)) {
    const gap = { fromEpochMs: reachedEpochMs, toEpochMs: startEpochMs, nextEpochMs: endEpochMs };
    if (gap.toEpochMs - gap.fromEpochMs > shortestMs) gaps.push(gap);
    reachedEpochMs = Math.max(reachedEpochMs, endEpochMs);
  }
  return gaps;
}

/** Gaps that follow one another, each as long and as long filled as the others: the highest of one hour in three. */
function runsOf(gaps: readonly Gap[]): Gap[][] {
  const runs: Gap[][] = [];
  for (const gap of gaps) {
    const before = runs.at(-1)?.at(-1);
    if (before !== undefined && isContinued(before, gap)) runs.at(-1)?.push(gap);
    else runs.push([gap]);
  }
  return runs;
}

const isContinued = (before: Gap, gap: Gap): boolean =>
  before.nextEpochMs > before.toEpochMs &&
  before.nextEpochMs === gap.fromEpochMs &&
  before.toEpochMs - before.fromEpochMs === gap.toEpochMs - gap.fromEpochMs &&
  before.nextEpochMs - before.toEpochMs === gap.nextEpochMs - gap.toEpochMs;

function runWords(run: readonly Gap[]): string {
  const [first, last] = [run[0], run.at(-1)];
  if (first === undefined || last === undefined) throw new Error('a run of gaps is never empty');
  if (run.length === 1) return nothingWords(first);
  const everyH = inHours(first.nextEpochMs - first.fromEpochMs);
  return (
    `known for ${inHours(first.nextEpochMs - first.toEpochMs)} of every ${everyH} hours from ` +
    `${formatUtc(first.fromEpochMs)} to ${formatUtc(last.nextEpochMs)}; the hours between are unknown.`
  );
}

const nothingWords = ({ fromEpochMs, toEpochMs }: Gap): string =>
  `nothing between ${formatUtc(fromEpochMs)} and ${formatUtc(toEpochMs)} (${inHours(toEpochMs - fromEpochMs)} h); ` +
  'these hours are unknown.';

const inHours = (durationMs: number): number => Math.round((10 * durationMs) / MS_PER_H) / 10;
