import type { JobPicture, Plan, PlannedJob, PlanPicture } from '../../lib/planner/index.ts';
import { barbSide, windBarb } from '../../lib/weather/index.ts';
import { lookoutOf } from './lookout-text.ts';
import { passageReading } from './plan-hours.ts';
import { plannedAlertness } from './planned-alertness.ts';
import { timeAxis, lightSpans } from './strip-axis.ts';
import { blockLanes } from './strip-blocks.ts';
import type { Barb, KeyEntry, StripModel, TimeAxis, ValueLane } from './strip-model.ts';
import { stripTable } from './strip-table.ts';
import { valueLanes } from './strip-values.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { quantityText, WIND } from './units/hour-figures.ts';

export interface StripInput {
  readonly plan: Plan;
  readonly picture: PlanPicture;
  /** null: the passage has no jobs. */
  readonly job: PlannedJob | null;
  readonly times: TimeTexts;
  /** The hour to read; absent or null: the first one. */
  readonly hourEpochMs?: number | null;
}

/** The strip for the chosen job: its limits, its handling's wind, its start times. */
export function strip({ plan, picture: whole, job, times, hourEpochMs = null }: StripInput): StripModel {
  const picture = { ...whole, alertnessPoints: plannedAlertness({ plan, picture: whole }) };
  const own = picture.jobs.find((shown) => shown.jobId === job?.jobId) ?? null;
  const axis = timeAxis(plan, picture, times);
  const values = valueLanes(picture, own, { axis, units: times.units });
  const blocks = blockLanes({ plan, picture, chosenJobId: job?.jobId ?? null, axis, times });
  return {
    title: job === null ? 'The hours ahead' : `The hours ahead, for: ${job.name}`,
    subtitle: `Ship’s time. Limits, deck wind and start times are those of the chosen job.`,
    description: describe({ plan, picture, job, times }, own, axis),
    axis,
    light: lightSpans(picture, axis),
    barbs: barbs(picture, axis, times),
    values,
    blocks,
    key: keyOf(values, blocks.flatMap((lane) => lane.windows).length > 0, job),
    lookout: lookoutOf(blocks),
    table: stripTable({ plan, picture, job: own }, axis, times),
    reading: passageReading({ plan, picture, times, shownEpochMs: hourEpochMs }, own, axis),
  };
}

/** The true wind every few hours, as far as the axis goes. */
export function barbs(picture: PlanPicture, axis: TimeAxis, times: TimeTexts): Barb[] {
  return picture.trueWind
    .filter(({ atEpochMs, windKn }) => atEpochMs <= axis.toEpochMs && !Number.isNaN(windKn))
    .map(({ atEpochMs, windKn, windFromDegTrue, lat }) => ({
      atEpochMs,
      fromDegTrue: Math.round(windFromDegTrue),
      ...windBarb(windKn),
      side: barbSide(lat),
      title: `${times.dayTime(atEpochMs)}: true wind ${quantityText(windKn, WIND, times.units)} from ${bearing(windFromDegTrue)}`,
    }));
}

/** `045°`, three figures, 360 written 000. */
const bearing = (degTrue: number): string => `${String(Math.round(degTrue) % 360).padStart(3, '0')}°`;

function describe({ plan, job, times }: StripInput, own: JobPicture | null, axis: TimeAxis): string {
  const span = `From ${times.full(axis.fromEpochMs)} to ${times.full(axis.toEpochMs)}, ship’s time.`;
  const starts = (own?.windows ?? []).map((window) =>
    times.span({ fromEpochMs: window.firstStartEpochMs, toEpochMs: window.lastStartEpochMs }, 'to'),
  );
  const windows =
    job === null || starts.length === 0 ? 'No start times.' : `Start times for ${job.name}: ${starts.join('; ')}.`;
  const placed = plan.jobs.flatMap(({ name, startUtc }) =>
    startUtc === null ? [] : [`${name} ${times.dayTime(epochOf(startUtc))}`],
  );
  return `${span} ${windows} Planned: ${placed.length === 0 ? 'nothing' : placed.join('; ')}. The same in figures stands in the table below.`;
}

function keyOf(values: readonly ValueLane[], hasWindows: boolean, job: PlannedJob | null): KeyEntry[] {
  const hasLimit = values.some((lane) => lane.limits.some((line) => line.kind === 'caution'));
  const limitKeys: KeyEntry[] = [
    { kind: 'ideal', text: 'ideal' },
    { kind: 'caution', text: 'caution' },
    { kind: 'no-go', text: 'no-go' },
  ];
  return [
    { kind: 'median', text: 'median' },
    { kind: 'inner', text: 'half of the scenarios' },
    { kind: 'outer', text: '8 in 10 of them' },
    { kind: 'gust', text: 'gust' },
    ...(hasLimit ? limitKeys : []),
    ...(hasWindows && job !== null ? [{ kind: 'window', text: 'start times of the chosen job' } as const] : []),
    { kind: 'planned', text: 'planned' },
    { kind: 'conditional', text: 'conditional' },
    { kind: 'sleep', text: 'sleep' },
    ...(values.some((lane) => lane.unknown.length > 0) ? [{ kind: 'unknown', text: 'unknown' } as const] : []),
  ];
}
