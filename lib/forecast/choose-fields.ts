/** Of all fields that mean the same quantity, those that make one consistent forecast; and a sentence for what is left. */
import { formatUtc, MS_PER_H } from '../time/index.ts';
import { leastOf, mostOf } from './extremes.ts';
import type { MatchedField } from './match-field.ts';
import { quantityOf, type QuantityId } from './quantity.ts';
import { LONGEST_STEP_H } from './time-bracket.ts';

export interface ChosenFields {
  readonly quantity: QuantityId;
  readonly baseEpochMs: number;
  readonly centreCode: number;
  readonly fields: readonly MatchedField[];
  readonly notes: readonly string[];
}

/** Splits into groups by key, in order of first appearance. */
export function groupBy<T>(items: readonly T[], keyOf: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}

/**
 * Chooses for one quantity: one centre and the newest base time (older ones only for hours before it begins); in each
 * member the kind of field that is preferred, unless it has less than half the hours of another.
 */
export function chooseFields(quantity: QuantityId, matched: readonly MatchedField[]): ChosenFields | null {
  const source = newestSource(matched);
  if (source === null) return null;
  const { baseEpochMs, centreCode } = source;
  const newest = matched.filter((found) => isOf(found, source));
  const earlier = earlierFields(matched, source, firstStart(newest));
  const members = groupBy([...newest, ...newestPerTime(earlier)], (found) => found.memberId);
  return {
    quantity,
    baseEpochMs,
    centreCode,
    fields: [...members.values()].flatMap(preferredKind),
    notes: sourceNotes(quantity, matched, source),
  };
}

const firstStart = (fields: readonly MatchedField[]): number => leastOf(fields, (found) => found.startEpochMs);
const lastEnd = (fields: readonly MatchedField[]): number => mostOf(fields, (found) => found.endEpochMs);

interface Source {
  readonly centreCode: number;
  readonly baseEpochMs: number;
  readonly endEpochMs: number;
}

const isOf = (found: MatchedField, source: Pick<Source, 'centreCode' | 'baseEpochMs'>): boolean =>
  found.field.centre === source.centreCode && found.baseEpochMs === source.baseEpochMs;

function sourcesOf(matched: readonly MatchedField[]): Source[] {
  const groups = groupBy(matched, (found) => `${found.field.centre} ${found.baseEpochMs}`);
  return [...groups.values()].map((group) => ({
    centreCode: group[0]?.field.centre ?? 0,
    baseEpochMs: group[0]?.baseEpochMs ?? 0,
    endEpochMs: lastEnd(group),
  }));
}

/** Newest base time; of several centres with it the one that reaches furthest. */
const newestSource = (matched: readonly MatchedField[]): Source | null =>
  sourcesOf(matched).toSorted(
    (a, b) => b.baseEpochMs - a.baseEpochMs || b.endEpochMs - a.endEpochMs || a.centreCode - b.centreCode,
  )[0] ?? null;

/** Fields of older runs of the same centre for hours before the newest, as far back as there is no gap. */
function earlierFields(matched: readonly MatchedField[], newest: Source, firstEpochMs: number): MatchedField[] {
  const ofCentre = matched.filter(
    ({ field, baseEpochMs }) => field.centre === newest.centreCode && baseEpochMs < newest.baseEpochMs,
  );
  const runs = [...groupBy(ofCentre, ({ baseEpochMs }) => String(baseEpochMs)).values()].toSorted(
    ([a], [b]) => (b?.baseEpochMs ?? 0) - (a?.baseEpochMs ?? 0),
  );
  const earlier: (readonly MatchedField[])[] = [];
  let firstSoFarEpochMs = firstEpochMs;
  for (const run of runs) {
    const fields = run.filter(({ endEpochMs }) => endEpochMs < firstEpochMs);
    const endEpochMs = lastEnd(fields);
    if (!(firstSoFarEpochMs - endEpochMs <= LONGEST_STEP_H * MS_PER_H)) continue;
    earlier.push(fields);
    firstSoFarEpochMs = Math.min(firstSoFarEpochMs, firstStart(fields));
  }
  return earlier.flat();
}

/** Of the same thing at the same time from several runs, the newest run's. */
function newestPerTime(fields: readonly MatchedField[]): MatchedField[] {
  const groups = groupBy(fields, (found) => `${found.memberId} ${found.rowIndex} ${found.endEpochMs}`);
  return [...groups.values()].flatMap((group) => {
    const newestEpochMs = mostOf(group, (found) => found.baseEpochMs);
    return group.filter((found) => found.baseEpochMs === newestEpochMs);
  });
}

/** Fields of one member, of one kind: the preferred one that has at least half as many hours as the richest. */
function preferredKind(fields: readonly MatchedField[]): readonly MatchedField[] {
  const kinds = [...groupBy(fields, (found) => `${found.row.variant} ${found.row.reading}`).values()].filter(
    hasAllParts,
  );
  const mostCount = Math.max(0, ...kinds.map(timeCount));
  const enough = kinds.filter((kind) => 2 * timeCount(kind) >= mostCount);
  return enough.toSorted((a, b) => firstRowIndex(a) - firstRowIndex(b))[0] ?? [];
}

const timeCount = (fields: readonly MatchedField[]): number => new Set(fields.map((found) => found.endEpochMs)).size;
const firstRowIndex = (fields: readonly MatchedField[]): number => leastOf(fields, (found) => found.rowIndex);

/** Whether a pair has both its parts; a direction alone is enough for waves. */
function hasAllParts(fields: readonly MatchedField[]): boolean {
  const parts = new Set(fields.map((found) => found.row.part));
  if (parts.has('single') || parts.has('dewPoint')) return true;
  if (parts.has('u') || parts.has('v')) return parts.has('u') && parts.has('v');
  return parts.has('speed') ? parts.has('direction') : fields[0]?.row.quantity === 'waveDirection';
}

/** What other runs and centres there were, and how much further they reach. */
function sourceNotes(quantity: QuantityId, matched: readonly MatchedField[], used: Source): string[] {
  const others = sourcesOf(matched).filter((other) => !isSame(other, used));
  const older = others.filter((other) => other.centreCode === used.centreCode);
  const foreign = others.filter((other) => other.centreCode !== used.centreCode);
  const say = (what: string): string =>
    `${quantityOf(quantity).name}: the run of ${formatUtc(used.baseEpochMs)} is used; ${what}.`;
  const notes = foreign.map((other) => say(`the one of centre ${other.centreCode} is not${reach(other, used)}`));
  const [furthest] = older.toSorted((a, b) => b.endEpochMs - a.endEpochMs);
  if (furthest === undefined) return notes;
  const runs = older.length === 1 ? 'the one before it' : `the ${older.length} before it`;
  return [...notes, say(`${runs} at most for earlier hours${reach(furthest, used)}`)];
}

const isSame = (a: Source, b: Source): boolean => a.centreCode === b.centreCode && a.baseEpochMs === b.baseEpochMs;

function reach(other: Source, used: Source): string {
  const furtherH = Math.round((other.endEpochMs - used.endEpochMs) / MS_PER_H);
  const base = `, based on ${formatUtc(other.baseEpochMs)}`;
  return furtherH > 0 ? `${base}, although it reaches ${furtherH} h further: give that file alone to use it` : '';
}
