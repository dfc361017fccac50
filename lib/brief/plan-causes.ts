/** What was known when the newer of two plans was made and not when the older was. */
import { effectiveEntries, instantOf, type NumberedEntry } from '../log/index.ts';
import { WORK_KINDS, workPaceText, paceText, type PaceByWork, type WorkKind, type WorkPace } from '../person/index.ts';
import { minutesText } from '../reasons/index.ts';
import { formatAt, MS_PER_H, MS_PER_MIN } from '../time/index.ts';
import { neverSaid } from './never-said.ts';
import type { ComparablePlan } from './plan-changes.ts';

export type PlanCause =
  | { readonly kind: 'forecast'; readonly fromUtc: string; readonly toUtc: string }
  | {
      readonly kind: 'log';
      /** Numbers of the first and last entry written between the two plans. */
      readonly firstNumber: number;
      readonly lastNumber: number;
      readonly doneJobIds: readonly string[];
      readonly safePointJobIds: readonly string[];
      readonly positionCount: number;
      readonly weatherCount: number;
      readonly correctionCount: number;
      readonly sleptH: number;
    }
  | ({ readonly kind: 'own-pace'; readonly workKind: WorkKind; readonly fromRatio: number } & WorkPace)
  /** What the weather seen on board did to the forecast, in words. */
  | { readonly kind: 'seen-weather'; readonly text: string }
  /** Parts of the passage the user changed. */
  | { readonly kind: 'edited'; readonly paths: readonly string[] }
  /** Nothing but the hour. */
  | { readonly kind: 'time'; readonly byMin: number };

/** What the caller knows besides the two plans. */
export interface KnownCauses {
  /** The whole log; what lies between the two plans counts. */
  readonly log?: readonly NumberedEntry[];
  /** Usual pace and own paces the plans were made with. */
  readonly pace?: { readonly usualRatio: number; readonly older: PaceByWork; readonly newer: PaceByWork };
  readonly seenWeather?: readonly string[];
  /** Paths of the passage that differ: `jobs`, `settings.wantedProbability`. */
  readonly editedPaths?: readonly string[];
}

/** Every cause of a difference between two plans that is known; that time has passed only where nothing else is. */
export function planCauses(
  { older, newer }: { readonly older: ComparablePlan; readonly newer: ComparablePlan },
  known: KnownCauses = {},
): readonly PlanCause[] {
  const causes = [
    ...forecastCause(older, newer),
    ...logCause(known.log ?? [], { fromEpochMs: Date.parse(older.madeAtUtc), toEpochMs: Date.parse(newer.madeAtUtc) }),
    ...paceCauses(known.pace),
    ...(known.seenWeather ?? []).map((text): PlanCause => ({ kind: 'seen-weather', text })),
    ...((known.editedPaths ?? []).length === 0 ? [] : [{ kind: 'edited' as const, paths: known.editedPaths ?? [] }]),
  ];
  const byMin = (Date.parse(newer.madeAtUtc) - Date.parse(older.madeAtUtc)) / MS_PER_MIN;
  return causes.length === 0 && byMin > 0 ? [{ kind: 'time', byMin }] : causes;
}

function forecastCause(older: ComparablePlan, newer: ComparablePlan): PlanCause[] {
  const [fromUtc, toUtc] = [older.forecast?.baseTimeUtc, newer.forecast?.baseTimeUtc];
  if (fromUtc === undefined || toUtc === undefined || fromUtc === toUtc) return [];
  return [{ kind: 'forecast', fromUtc, toUtc }];
}

function logCause(log: readonly NumberedEntry[], of: { fromEpochMs: number; toEpochMs: number }): PlanCause[] {
  const isBetween = (atEpochMs: number): boolean => atEpochMs > of.fromEpochMs && atEpochMs <= of.toEpochMs;
  const written = log.filter(({ entry }) => isBetween(writtenAt(entry)));
  if (written.length === 0) return [];
  const numbers = written.map(({ number }) => number);
  const fresh = new Set(numbers);
  const statements = effectiveEntries(log)
    .filter(({ number, correctedBy }) => fresh.has(number) || (correctedBy !== null && fresh.has(correctedBy.number)))
    .map(({ statement }) => statement);
  const observations = statements.filter((statement) => statement.kind === 'observation');
  const jobsWith = (event: string): string[] => [
    ...new Set(statements.flatMap((one) => (one.kind === 'job' && one.event === event ? [one.jobId] : []))),
  ];
  const sleptMs = statements.reduce(
    (sumMs, one) => sumMs + (one.kind === 'sleep' ? instantOf(one.endUtc) - instantOf(one.atUtc) : 0),
    0,
  );
  return [
    {
      kind: 'log',
      firstNumber: Math.min(...numbers),
      lastNumber: Math.max(...numbers),
      doneJobIds: jobsWith('done'),
      safePointJobIds: jobsWith('safe-point'),
      positionCount: observations.filter(({ lat }) => lat !== undefined).length,
      weatherCount: observations.filter(({ wind, pressureHpa, seaHeightM }) =>
        [wind, pressureHpa, seaHeightM].some((value) => value !== undefined),
      ).length,
      correctionCount: written.filter(({ entry }) => entry.kind === 'correction').length,
      sleptH: sleptMs / MS_PER_H,
    },
  ];
}

/** Nobody writes down a sleep before waking. */
const writtenAt = (entry: NumberedEntry['entry']): number =>
  instantOf(entry.kind === 'sleep' ? entry.endUtc : entry.atUtc);

/** A pace this near to what it was is not worth a line. */
const LEAST_PACE_DIFFERENCE = 0.005;

function paceCauses(pace: KnownCauses['pace']): PlanCause[] {
  if (pace === undefined) return [];
  return WORK_KINDS.flatMap((workKind): PlanCause[] => {
    const now = pace.newer[workKind];
    const fromRatio = pace.older[workKind]?.ratio ?? pace.usualRatio;
    if (now === undefined || Math.abs(now.ratio - fromRatio) < LEAST_PACE_DIFFERENCE) return [];
    return [{ kind: 'own-pace', workKind, fromRatio, ...now }];
  });
}

/** How causes are told. */
export interface CausesWording {
  readonly shipTimeOffsetMin: number;
  readonly jobNames?: Readonly<Record<string, string>>;
}

/** One sentence for each cause. */
export const planCausesText = (causes: readonly PlanCause[], wording: CausesWording): string[] =>
  causes.map((cause) => causeText(cause, wording));

function causeText(cause: PlanCause, wording: CausesWording): string {
  const time = (utc: string): string => formatAt(Date.parse(utc), wording.shipTimeOffsetMin, 'ccc d LLL HH:mm');
  switch (cause.kind) {
    case 'forecast':
      return `The forecast is that of ${time(cause.toUtc)}, it was that of ${time(cause.fromUtc)}.`;
    case 'log':
      return logText(cause, wording);
    case 'own-pace':
      return `Own pace: ${workPaceText(cause.workKind, cause)}; it was ${paceText(cause.fromRatio)}.`;
    case 'seen-weather':
      return `Weather seen on board: ${cause.text}`;
    case 'edited':
      return `The passage was edited: ${cause.paths.join(', ')}.`;
    case 'time':
      return `Nothing but the hour: ${minutesText(cause.byMin)} later.`;
    default:
      return neverSaid(cause);
  }
}

function logText(cause: Extract<PlanCause, { kind: 'log' }>, { jobNames }: CausesWording): string {
  const names = (ids: readonly string[]): string => ids.map((id) => `"${jobNames?.[id] ?? id}"`).join(', ');
  const counted = (count: number, one: string): string[] =>
    count === 0 ? [] : [`${count} ${one}${count === 1 ? '' : 's'}`];
  const parts = [
    ...(cause.doneJobIds.length === 0 ? [] : [`done: ${names(cause.doneJobIds)}`]),
    ...(cause.safePointJobIds.length === 0 ? [] : [`at a safe point: ${names(cause.safePointJobIds)}`]),
    ...counted(cause.positionCount, 'position'),
    ...counted(cause.weatherCount, 'reading'),
    ...(cause.sleptH === 0 ? [] : [`${cause.sleptH.toFixed(1)} h in the bunk`]),
    ...counted(cause.correctionCount, 'correction'),
  ];
  const entries =
    cause.firstNumber === cause.lastNumber
      ? `entry ${cause.firstNumber}`
      : `entries ${cause.firstNumber} to ${cause.lastNumber}`;
  return `The log, ${entries}${parts.length === 0 ? '' : `: ${parts.join('; ')}`}.`;
}
