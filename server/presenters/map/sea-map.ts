import { type Coastline, formatPosition } from '../../../lib/geo/index.ts';
import type { Land } from '../../coastline.ts';
import type { PassageView } from '../plan-standing.ts';
import { epochOf, type TimeTexts } from '../time-texts.ts';
import { type Chart, mapChart, type Shown, withChosenJob } from './map-drawing.ts';
import type { MapSize } from './map-frame.ts';
import type { MapRow, SeaMap } from './map-model.ts';
import { mapStops, type MapStop } from './map-stops.ts';
import { planPlaces } from './plan-places.ts';
import { coastOfRuns, type SeaRoom, seaRoomOf, seaRoomSentence, seaRoomText } from './sea-room.ts';

const sizeOf = (widthPx: number, heightPx: number): MapSize => ({
  widthPx,
  heightPx,
  inside: { left: 62, top: 4, right: widthPx - 4, bottom: heightPx - 44 },
});
const DESK = sizeOf(760, 500);
const PHONE = sizeOf(350, 420);

interface Asked {
  readonly land: Land;
  readonly chosenJobId: string | null;
  readonly times: TimeTexts;
}

type Mapped = Pick<PassageView, 'plan' | 'way'>;

/** What of a map follows from the plan alone. */
interface Charted {
  readonly desk: Chart;
  readonly phone: Chart;
  readonly stops: readonly { readonly stop: MapStop; readonly room: SeaRoom | null }[];
}

const kept = new WeakMap<Mapped, Charted | null>();

/** {@link seaMap}, its charts kept with the view, which stands for many requests. */
export function keptSeaMap(view: Mapped, asked: Asked): SeaMap | null {
  let charted = kept.get(view);
  if (charted === undefined) kept.set(view, (charted = chartedOf(view, asked.land)));
  return charted === null ? null : mapOf(charted, asked);
}

/** The passage on a map; null: nothing of it is known to lie anywhere. */
export function seaMap(view: Mapped, shown: Asked): SeaMap | null {
  const charted = chartedOf(view, shown.land);
  return charted === null ? null : mapOf(charted, shown);
}

function chartedOf({ plan, way }: Mapped, land: Land): Charted | null {
  const places = planPlaces(plan);
  const now = way?.now ?? places[0];
  if (now === undefined) return null;
  const stops = mapStops(plan, way);
  const coast = coastOfRuns(
    land.coast,
    stops.flatMap(({ entry, run }) => (run === null ? [] : [entry])),
  );
  const shown: Shown = { land, way, now, places, stops };
  return {
    desk: mapChart(shown, DESK),
    phone: mapChart(shown, PHONE),
    stops: stops.map((stop) => ({ stop, room: roomOf(coast, stop) })),
  };
}

function mapOf({ desk, phone, stops }: Charted, { chosenJobId, times }: Asked): SeaMap {
  return {
    title: 'Where she will be',
    sentence: seaRoomSentence(stops.flatMap(({ stop, room }) => (room === null ? [] : [{ ...room, name: stop.name }]))),
    desk: withChosenJob(desk, chosenJobId),
    phone: withChosenJob(phone, chosenJobId),
    rows: stops.map(({ stop, room }, index) => rowOf(stop, { room, index, chosenJobId, times })),
    note:
      'Runs are at the median wind, contingency included; land is looked for within 20° either side of them. ' +
      'The coastline is one of 1:50 million: small islands, rocks and shoals are not in it. Look at the chart.',
  };
}

const roomOf = (coast: Coastline, { entry, run }: MapStop): SeaRoom | null =>
  run === null ? null : seaRoomOf(coast, entry, run);

function rowOf(
  { entry, number, name }: MapStop,
  of: { room: SeaRoom | null; index: number; chosenJobId: string | null; times: TimeTexts },
): MapRow {
  return {
    key: `${of.index} ${entry.startUtc}`,
    number: number === null ? '' : String(number),
    name,
    isChosen: entry.jobId !== null && entry.jobId === of.chosenJobId,
    time: of.times.dayTime(epochOf(entry.startUtc)),
    position: formatPosition(entry, 0),
    runsOff: of.room === null ? '' : seaRoomText(of.room),
  };
}
