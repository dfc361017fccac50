/**
 * Windows found the slow way, from grid values alone: own interpolation, own sailing, own vectors, every start tried,
 * every instant of every period looked at. Uses nothing of lib; rules from the design page §2 and §5.
 */
import type { Box, GridValues } from './grid-values.ts';

const KN_PER_MPS = 3600 / 1852;
const RAD = Math.PI / 180;

export interface Voyage {
  readonly box: Box;
  readonly values: GridValues;
  /** Hours after the forecast's base time. */
  readonly startH: number;
  readonly endH: number;
  readonly slotMin: number;
  readonly from: { readonly lat: number; readonly lon: number };
  /** Along a parallel, toward the east. */
  readonly boatKn: number;
  readonly closestTwaDeg: number;
  readonly deckHeightM: number;
}

export interface Work {
  readonly minutes: number;
  readonly deckNoGoKn: number;
  /** Mean wind at 10 m the handling stands. */
  readonly handlingNoGoKn: number;
  /** null: holds the course. */
  readonly twaDeg: number | null;
}

/** Wind where the boat is at one slot instant, as a vector toward which it blows [kn]. */
interface Moment {
  readonly east: number;
  readonly north: number;
}

/** Rule: the first slot instant is the first multiple of the slot at or after the start, the last at or before the end. */
function slotHours({ startH, endH, slotMin }: Voyage): number[] {
  const hours: number[] = [];
  for (let k = Math.ceil((startH * 60) / slotMin - 1e-9); (k * slotMin) / 60 <= endH + 1e-9; k++)
    hours.push((k * slotMin) / 60);
  return hours;
}

function gridAt(voyage: Voyage, key: string, at: { lat: number; lon: number }): number {
  const rows = voyage.values.boxes[voyage.box.name]?.[key];
  const y = at.lat - voyage.box.southLat;
  const x = (((at.lon + 360) % 360) - voyage.box.westLon + 360) % 360;
  const [row, col] = [Math.floor(y), Math.floor(x)];
  const value = (j: number, i: number): number => rows?.[Math.min(j, (rows.length ?? 1) - 1)]?.[i] ?? Number.NaN;
  const bottom = value(row, col) * (1 - (x - col)) + value(row, col + 1) * (x - col);
  const top = value(row + 1, col) * (1 - (x - col)) + value(row + 1, col + 1) * (x - col);
  return bottom * (1 - (y - row)) + top * (y - row);
}

/** Bilinear in space, then linear in time, component by component. */
function windAt(voyage: Voyage, hourH: number, at: { lat: number; lon: number }): Moment {
  const { stepsH } = voyage.values;
  const next = stepsH.find((step) => step >= hourH) ?? Number.NaN;
  const before = stepsH.findLast((step) => step <= hourH) ?? Number.NaN;
  const share = next === before ? 0 : (hourH - before) / (next - before);
  const component = (name: string): number =>
    (gridAt(voyage, `${before}/${name}`, at) * (1 - share) + gridAt(voyage, `${next}/${name}`, at) * share) *
    KN_PER_MPS;
  return { east: component('10u'), north: component('10v') };
}

/** Degrees from which the wind comes, less 90 (the course), in -180..180. */
function offCourseDeg(wind: Moment): number {
  const fromDeg = Math.atan2(-wind.east, -wind.north) / RAD;
  return ((((fromDeg - 90 + 180) % 360) + 360) % 360) - 180;
}

/** Sails east: straight where the wind is wide enough, else beating, which brings v cos(closest) / cos(wind off course). */
export function momentsAlong(voyage: Voyage): { moments: Moment[]; lons: number[] } {
  const moments: Moment[] = [];
  const lons: number[] = [];
  let { lon } = voyage.from;
  for (const hourH of slotHours(voyage)) {
    const wind = windAt(voyage, hourH, { lat: voyage.from.lat, lon });
    moments.push(wind);
    lons.push(lon);
    const off = Math.abs(offCourseDeg(wind));
    const beats = off < voyage.closestTwaDeg;
    const madeGoodKn = beats
      ? (voyage.boatKn * Math.cos(voyage.closestTwaDeg * RAD)) / Math.cos(off * RAD)
      : voyage.boatKn;
    lon += (madeGoodKn * voyage.slotMin) / 60 / 60 / Math.cos(voyage.from.lat * RAD);
  }
  return { moments, lons };
}

/** Wind over the deck [kn]: brought to the deck's height, less the boat's own velocity. */
function deckKn(voyage: Voyage, work: Work, wind: Moment): number {
  const toDeck = (voyage.deckHeightM / 10) ** 0.11;
  const headingDeg = headingOf(voyage, work, wind);
  const boat = { east: voyage.boatKn * Math.sin(headingDeg * RAD), north: voyage.boatKn * Math.cos(headingDeg * RAD) };
  return Math.hypot(wind.east * toDeck - boat.east, wind.north * toDeck - boat.north);
}

function headingOf(voyage: Voyage, work: Work, wind: Moment): number {
  const off = offCourseDeg(wind);
  const fromDeg = off + 90;
  // Wind from starboard (positive): turning left by the angle leaves the wind at that angle on the starboard side.
  const side = off < 0 ? -1 : 1;
  if (work.twaDeg !== null) return fromDeg - side * work.twaDeg;
  return Math.abs(off) < voyage.closestTwaDeg ? fromDeg - side * voyage.closestTwaDeg : 90;
}

export interface HandWindow {
  readonly firstH: number;
  readonly lastH: number;
}

/** Planned minutes and half of them again, 30 at least, up to whole slots; weather inside at every instant, ends included. */
export function windowsByHand(
  voyage: Voyage,
  work: Work,
): { windows: HandWindow[]; leastRoomKn: number; mostWindKn: number; leastWindKn: number } {
  const hours = slotHours(voyage);
  const { moments } = momentsAlong(voyage);
  const periodSlots = Math.ceil((work.minutes + Math.max(work.minutes / 2, 30)) / voyage.slotMin);
  const room = moments.map((wind) =>
    Math.min(work.deckNoGoKn - deckKn(voyage, work, wind), work.handlingNoGoKn - Math.hypot(wind.east, wind.north)),
  );
  const windows: { firstH: number; lastH: number }[] = [];
  for (let start = 0; start + periodSlots < hours.length; start++) {
    let fair = true;
    for (let i = start; i <= start + periodSlots; i++) fair &&= (room[i] ?? -1) >= 0;
    if (!fair) continue;
    const hourH = hours[start] ?? Number.NaN;
    const last = windows.at(-1);
    if (last !== undefined && Math.abs(hourH - last.lastH - voyage.slotMin / 60) < 1e-9) last.lastH = hourH;
    else windows.push({ firstH: hourH, lastH: hourH });
  }
  const speeds = moments.map((wind) => Math.hypot(wind.east, wind.north));
  return {
    windows,
    leastRoomKn: Math.min(...room.map(Math.abs)),
    mostWindKn: Math.max(...speeds),
    leastWindKn: Math.min(...speeds),
  };
}
