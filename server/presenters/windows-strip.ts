import type { BlockWindow } from '../../lib/windows/index.ts';
import { slotEpochMs, type SlotGrid, MS_PER_H } from '../../lib/time/index.ts';
import type { JobPicture, PlanPicture, StartLook, WindowsPicture } from '../../lib/planner/index.ts';
import { lookEnds } from '../../lib/planner/index.ts';
import { of100 } from './amount-texts.ts';
import { handlingText } from './handling-text.ts';
import { lookoutOf } from './lookout-text.ts';
import type { PassageView } from './plan-standing.ts';
import { lightSpans, timeAxis } from './strip-axis.ts';
import { binsOf, gathered, type Bins } from './strip-bins.ts';
import { blockLanes } from './strip-blocks.ts';
import { barbs } from './strip.ts';
import type { BlockLane, KeyEntry, LimitLine, PickedStart, StripModel, TimeAxis, ValueLane } from './strip-model.ts';
import { everyStep, largest, limitLabel, plainLane, roundUp, valueLanes } from './strip-values.ts';
import type { TimeTexts } from './time-texts.ts';
import { windTicks } from './units/lane-ticks.ts';
import type { ShownUnits } from './units/shown-units.ts';
import { plannedAlertness } from './planned-alertness.ts';
import { moonSpans } from './windows-sky.ts';
import { bindingIds, bindingLanes } from './windows-binding-lanes.ts';
import { windowsReading } from './windows-hours.ts';
import { windowsStripTable } from './windows-strip-table.ts';
import type { ChosenWindows } from './windows-choice.ts';

export interface WindowsStripInput {
  readonly view: PassageView;
  readonly chosen: ChosenWindows;
  readonly jobName: string;
  readonly picture: WindowsPicture;
  /** Of the chosen part under the chosen handling. */
  readonly windows: readonly BlockWindow[];
  readonly grid: SlotGrid;
  readonly look: StartLook | null;
  readonly times: TimeTexts;
}

const AFTER_LAST_H = 6;

/** The lanes of one part under one handling: chance of a start, wind, sea, light, what else binds, alertness, the plan. */
export function windowsStrip(input: WindowsStripInput): StripModel {
  const { view, picture, jobName, times, look } = input;
  const { plan } = view;
  const own = asPlanned(input);
  const axis = timeAxis(plan, own.picture, times, lastSeenEpochMs(input));
  const bins = binsOf(picture.slotEpochMs, axis);
  const values = [chanceLane(picture, bins), ...weatherLanes(picture, own, { axis, bins, units: times.units })];
  const planned = blockLanes({ plan, picture: own.picture, chosenJobId: picture.asked.jobId, axis, times });
  const blocks = [startsLane(input, axis), ...planned.map(onlyChosenNamed)];
  const ends = look === null ? null : lookEnds(look);
  const moon = moonSpans(picture, axis);
  return {
    title: `Windows of: ${jobName}`,
    subtitle: `Ship’s time. Boat on the nominal track, ${handlingText(view.picture, picture.asked.handlingId)}.`,
    screenHint: 'Point at an hour to read it, press to look at a start there.',
    description: describe(input, axis),
    axis,
    light: lightSpans(picture, axis),
    moon,
    barbs: barbs(view.picture, axis, times),
    values,
    blocks,
    key: keyOf({ values, blocks, moon }, look !== null),
    lookout: lookoutOf(blocks),
    table: windowsStripTable(input, axis),
    reading: windowsReading(input, axis),
    ...(look === null || ends === null ? {} : { pick: pickOf(look, ends, times) }),
  };
}

/** Of the plan's work only the chosen job is named, and on a phone not even that: it is there to see what is in the way. */
const onlyChosenNamed = (lane: BlockLane): BlockLane => ({
  ...lane,
  windows: [],
  blocks: lane.blocks.map((block) => ({ ...block, text: block.isChosen ? block.text : '', lines: [] })),
});

interface Own {
  readonly picture: PlanPicture;
  readonly job: JobPicture;
}

/** The hours of the nominal track in the shape the plan's own lanes are drawn from. */
function asPlanned({ view, picture }: WindowsStripInput): Own {
  const { seaHeightM, rainMmPerH, airC, light } = picture;
  return {
    picture: { ...view.picture, seaHeightM, rainMmPerH, airC, light, alertnessPoints: plannedAlertness(view) },
    job: {
      jobId: picture.asked.jobId,
      handling: picture.asked.handlingId,
      deckWindKn: picture.deckWindKn,
      deckGustKn: picture.deckGustKn.p50,
      // Hours that must be dry before the work are seen in the rain too.
      limits: picture.limits.dryBeforeH === null ? picture.limits : { ...picture.limits, rain: 'none' },
      leastAlertnessPoints: picture.leastAlertnessPoints,
      windows: [],
      probabilitySd: null,
      plannedMin: null,
      referenceMin: null,
      lostNm: null,
    },
  };
}

function lastSeenEpochMs({ windows, grid, look }: WindowsStripInput): number {
  const lastStarts = windows.map((window) => slotEpochMs(grid, window.lastStartSlot));
  const held = look === null ? [] : [lookEnds(look)?.holdEpochMs ?? look.startEpochMs];
  return Math.max(0, ...lastStarts, ...held) + AFTER_LAST_H * MS_PER_H;
}

function chanceLane(picture: WindowsPicture, bins: Bins): ValueLane {
  const wanted = of100(picture.wantedProbability);
  const in100 = picture.startProbability.map((probability) => probability * 100);
  return {
    ...plainLane(bins),
    id: 'chance',
    name: 'Start holds',
    shortName: 'Holds',
    shortUnit: '/100',
    unit: 'of 100',
    most: 100,
    ticks: everyStep(50, 50),
    curves: [{ kind: 'chance', values: gathered(in100, bins, 'first') }],
    limits: [{ kind: 'wanted', value: wanted, text: `wanted ${wanted}` }],
  };
}

function weatherLanes(
  picture: WindowsPicture,
  own: Own,
  on: { axis: TimeAxis; bins: Bins; units: ShownUnits },
): ValueLane[] {
  const binding = bindingIds(picture, on.axis);
  const { steepness, visibility, ...more } = bindingLanes(picture, { ...on, binding });
  const there = (lanes: readonly (ValueLane | undefined)[]): ValueLane[] => lanes.filter((lane) => lane !== undefined);
  return valueLanes(own.picture, own.job, { ...on, binding }).flatMap((lane) => {
    if (lane.id === 'wind') return [withGustFan(lane, picture, on)];
    if (lane.id === 'sea') return there([withHandlingSea(lane, picture, on.units), steepness]);
    return lane.id === 'alertness' ? there([more['sea-water'], visibility, lane]) : [lane];
  });
}

function withGustFan(
  lane: ValueLane,
  { deckGustKn }: WindowsPicture,
  { bins, units }: { bins: Bins; units: ShownUnits },
): ValueLane {
  const high = gathered(deckGustKn.p90, bins, 'most');
  const most = Math.min(60, Math.max(lane.most, roundUp(largest(high), 5)));
  const fan = { kind: 'gust', low: gathered(deckGustKn.p10, bins, 'least'), high } as const;
  return { ...lane, most, ticks: windTicks(most, units), bands: [fan, ...lane.bands] };
}

/** The handling's own limit on the sea is drawn where it is the lower one. */
function withHandlingSea(lane: ValueLane, { limits }: WindowsPicture, units: ShownUnits): ValueLane {
  const noGoM = limits.handlingSeaNoGoM;
  if (limits.seaHeightM !== null && limits.seaHeightM.noGo <= noGoM) return lane;
  const line: LimitLine = { kind: 'handling', value: noGoM, text: `handling ${limitLabel(noGoM, 'm', units)}` };
  return { ...lane, most: Math.max(lane.most, roundUp(noGoM + 0.2, 1)), limits: [line, ...lane.limits], note: null };
}

const LINE_CHARACTERS = 14;

function startsLane({ windows, grid, times }: WindowsStripInput, axis: TimeAxis): BlockLane {
  const blocks = windows
    .map((window) => ({
      window,
      fromEpochMs: slotEpochMs(grid, window.firstStartSlot),
      toEpochMs: slotEpochMs(grid, window.lastStartSlot),
    }))
    .filter(({ fromEpochMs, toEpochMs }) => fromEpochMs < axis.toEpochMs && toEpochMs >= axis.fromEpochMs)
    .toSorted((a, b) => a.fromEpochMs - b.fromEpochMs)
    .map(({ window, fromEpochMs, toEpochMs }) => {
      const text = `${of100(window.probability)} of 100`;
      const title = `start ${times.span({ fromEpochMs, toEpochMs }, 'to')}: ${text}`;
      return {
        fromEpochMs,
        toEpochMs: Math.min(axis.toEpochMs, toEpochMs),
        kind: window.conditional ? ('start-conditional' as const) : ('start' as const),
        isChosen: false,
        text,
        lines: [text.slice(0, LINE_CHARACTERS)],
        title: window.conditional ? `${title}, conditional` : title,
      };
    });
  return { id: 'starts', name: 'Start times', blocks, windows: [] };
}

const pickOf = (look: StartLook, ends: { endEpochMs: number; holdEpochMs: number }, times: TimeTexts): PickedStart => ({
  fromEpochMs: look.startEpochMs,
  toEpochMs: ends.endEpochMs,
  holdEpochMs: ends.holdEpochMs,
  text: times.time(look.startEpochMs),
});

function describe({ windows, grid, jobName, times }: WindowsStripInput, axis: TimeAxis): string {
  const span = `From ${times.full(axis.fromEpochMs)} to ${times.full(axis.toEpochMs)}, ship’s time.`;
  const starts = windows.map(
    (window) =>
      `${times.span({ fromEpochMs: slotEpochMs(grid, window.firstStartSlot), toEpochMs: slotEpochMs(grid, window.lastStartSlot) }, 'to')}, ${of100(window.probability)} of 100${window.conditional ? ', conditional' : ''}`,
  );
  const said = starts.length === 0 ? 'No start times.' : `Start times for ${jobName}: ${starts.join('; ')}.`;
  return `${span} ${said} The same in figures stands in the tables below.`;
}

function keyOf(
  { values, blocks, moon = [] }: Pick<StripModel, 'values' | 'blocks' | 'moon'>,
  isPicked: boolean,
): KeyEntry[] {
  const hasMoon = moon.length > 0;
  const kinds = new Set(blocks.flatMap((lane) => lane.blocks.map((block) => block.kind)));
  const hasLevels = values.some((lane) => lane.limits.some((line) => line.kind === 'caution'));
  return [
    { kind: 'median', text: 'median' },
    { kind: 'inner', text: 'half of the scenarios' },
    { kind: 'outer', text: '8 in 10 of them' },
    { kind: 'gust-fan', text: 'gust, median and 8 in 10' },
    ...(hasLevels
      ? ([
          { kind: 'ideal', text: 'ideal' },
          { kind: 'caution', text: 'caution' },
        ] as const)
      : []),
    { kind: 'no-go', text: 'no-go' },
    ...(kinds.has('start') ? [{ kind: 'window', text: 'start times' } as const] : []),
    ...(kinds.has('start-conditional') ? [{ kind: 'conditional', text: 'conditional' } as const] : []),
    ...(isPicked ? [{ kind: 'pick', text: 'the start looked at, and until when the weather must hold' } as const] : []),
    ...(hasMoon ? [{ kind: 'moon', text: 'moon up; thick: enough to work by' } as const] : []),
    { kind: 'planned', text: 'planned' },
    { kind: 'sleep', text: 'sleep' },
    ...(values.some((lane) => lane.unknown.length > 0) ? [{ kind: 'unknown', text: 'unknown' } as const] : []),
  ];
}
