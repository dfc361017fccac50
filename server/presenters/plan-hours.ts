import type { JobPicture, Plan, PlanEntry, PlanPicture } from '../../lib/planner/index.ts';
import { excessText, roomText } from './amount-texts.ts';
import { hourReading, type HourlyWeather, windText } from './hour-reading.ts';
import { joined } from './limit-texts.ts';
import type { HourReading, TimeAxis, TimeSpan } from './strip-model.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { quantityText, WIND } from './units/hour-figures.ts';
import type { ShownUnits } from './units/shown-units.ts';

interface PlanHoursInput {
  readonly plan: Plan;
  /** Alertness as far as the plan goes. */
  readonly picture: PlanPicture;
  readonly times: TimeTexts;
  /** The hour to show; null: the first one. */
  readonly shownEpochMs: number | null;
}

/** The hours of the passage page: deck wind, start times and limits are those of the chosen job; null: none is. */
export function passageReading(
  { plan, picture, times, shownEpochMs }: PlanHoursInput,
  job: JobPicture | null,
  axis: TimeAxis,
): HourReading {
  const jobQuery = job === null ? '' : `job=${encodeURIComponent(job.jobId)}&`;
  return hourReading(
    {
      weather: picture satisfies HourlyWeather,
      deckAt: (i) => deckOf(job, i, times.units),
      ownTerms: job === null ? ['Planned then'] : ['A start then', 'Room to no-go', 'Planned then'],
      ownAt: (i, row) => [
        ...(job === null ? [] : [startText(job, row.fromEpochMs), roomAt({ job, picture, units: times.units }, i)]),
        plannedText(plan, row),
      ],
      hrefOf: (utc) => `?${jobQuery}hour=${utc}#reading`,
      shownEpochMs,
      pressed: 'read',
      more: job === null ? null : { text: 'Its chance, and a start then', hrefBefore: `/windows?${jobQuery}start=` },
      times,
    },
    axis,
  );
}

/** The hours of the plan page: deck wind is that of the work of the hour. */
export function planReading(input: PlanHoursInput, axis: TimeAxis): HourReading {
  const { plan, picture, times, shownEpochMs } = input;
  const worked = (i: number, row: TimeSpan): { readonly job: JobPicture | null; readonly i: number } => {
    const entry = entriesIn(plan, row).find(({ kind }) => kind === 'work');
    const job = picture.jobs.find(({ jobId }) => jobId === entry?.jobId) ?? null;
    const startEpochMs = entry === undefined ? 0 : epochOf(entry.startUtc);
    return {
      job,
      i: Math.max(
        i,
        picture.slotEpochMs.findLastIndex((epochMs) => epochMs <= startEpochMs),
      ),
    };
  };
  return hourReading(
    {
      weather: picture,
      deckAt: (i, row) => {
        const at = worked(i, row);
        return at.job === null ? { wind: 'no work', gust: 'no work' } : deckOf(at.job, at.i, times.units);
      },
      ownTerms: ['Room to no-go', 'Planned then'],
      ownAt: (i, row) => {
        const at = worked(i, row);
        return [
          at.job === null ? 'no work' : roomAt({ job: at.job, picture, units: times.units }, at.i),
          plannedText(plan, row),
        ];
      },
      hrefOf: (utc) => `?hour=${utc}#reading`,
      shownEpochMs,
      pressed: 'read',
      more: null,
      times,
    },
    axis,
  );
}

const deckOf = (
  job: JobPicture | null,
  i: number,
  units: ShownUnits,
): { readonly wind: string; readonly gust: string } =>
  job === null
    ? { wind: 'no job', gust: 'no job' }
    : { wind: windText(job.deckWindKn, i, units), gust: quantityText(job.deckGustKn[i], WIND, units) };

/** Whether it lies among the start times of the job. */
function startText(job: JobPicture, epochMs: number): string {
  const span = job.windows.find(
    ({ firstStartEpochMs, lastStartEpochMs }) => firstStartEpochMs <= epochMs && epochMs <= lastStartEpochMs,
  );
  if (span === undefined) return 'outside its start times';
  return span.conditional ? 'in its start times, conditional' : 'in its start times';
}

interface JobHours {
  readonly job: JobPicture;
  readonly picture: PlanPicture;
  readonly units: ShownUnits;
}

/** Median weather of this hour against the strictest limits of the job's steps; what is not limited is not named. */
function roomAt({ job, picture, units }: JobHours, i: number): string {
  const { limits } = job;
  const seaM = picture.seaHeightM.p50[i];
  const atMost = (name: string, noGo: number | null | undefined, value: number | undefined, unit: string): string[] =>
    noGo === null || noGo === undefined ? [] : [`${name} ${roomOrOver({ noGo, value, unit }, units)}`];
  const rooms = [
    ...atMost('wind', limits.deckWindKn?.noGo, job.deckWindKn.p50[i], 'kn'),
    ...atMost('gust', limits.deckGustNoGoKn, job.deckGustKn[i], 'kn'),
    ...atMost('sea', limits.seaHeightM?.noGo, seaM, 'm'),
    ...dryAndWarm({ job, picture, units }, i),
  ];
  return rooms.length === 0 ? 'no limit' : joined(rooms);
}

function roomOrOver(
  { noGo, value, unit }: { readonly noGo: number; readonly value: number | undefined; readonly unit: string },
  units: ShownUnits,
): string {
  if (value === undefined || Number.isNaN(value)) return 'unknown';
  return value > noGo ? `over by ${excessText(value - noGo, unit, units)}` : roomText(noGo - value, unit, units);
}

/** Rain and cold are named where they stand against the work, or are not known. */
function dryAndWarm({ job, picture, units }: JobHours, i: number): string[] {
  const { rain, airLeastC } = job.limits;
  const rainMmPerH = picture.rainMmPerH[i] ?? Number.NaN;
  const airC = picture.airC[i] ?? Number.NaN;
  return [
    ...(rain === 'none' && Number.isNaN(rainMmPerH) ? ['rain unknown'] : []),
    ...(rain === 'none' && rainMmPerH > RAIN_SEEN_MM_PER_H ? ['too wet'] : []),
    ...(airLeastC !== null && Number.isNaN(airC) ? ['air unknown'] : []),
    ...(airLeastC !== null && airC < airLeastC ? [`air ${excessText(airLeastC - airC, '°C', units)} too cold`] : []),
  ];
}

/** Any that a gauge shows in an hour. */
const RAIN_SEEN_MM_PER_H = 0.1;

const entriesIn = ({ entries }: Plan, { fromEpochMs, toEpochMs }: TimeSpan): readonly PlanEntry[] =>
  entries.filter(
    ({ kind, startUtc, endUtc }) => kind !== 'wait' && epochOf(startUtc) < toEpochMs && epochOf(endUtc) > fromEpochMs,
  );

/** Work and sleep of the hour by name, in order of time; between them there is watch. */
function plannedText(plan: Plan, row: TimeSpan): string {
  const names = entriesIn(plan, row)
    .toSorted((a, b) => epochOf(a.startUtc) - epochOf(b.startUtc))
    .map(({ kind, jobId }) => {
      if (kind === 'work') return plan.jobs.find((job) => job.jobId === jobId)?.name ?? 'work';
      return kind === 'sleep' ? 'sleep' : 'look-out';
    });
  return names.length === 0 ? 'watch' : [...new Set(names)].join(', then ');
}
