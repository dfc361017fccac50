import { formatPosition, type Position } from '../../geo/index.ts';
import type { Passage } from '../../passage/index.ts';
import { MS_PER_H, MS_PER_MIN } from '../../time/index.ts';
import { measureTrack, nearestOnTrack, positionAtNm, type MeasuredTrack, type Track } from '../../track/index.ts';
import { minWords, utcWords } from '../words.ts';
import type { Known, Noted } from './known.ts';

/** Where the boat was last, and the track she has still to sail from there. */
export interface PlaceNow {
  readonly epochMs: number;
  readonly position: Position;
  readonly track: Track;
  /** Logged places since the start of the passage, in order of time, the last one included. */
  readonly places: readonly Fix[];
}

interface Fix extends Position {
  readonly number: number;
  readonly epochMs: number;
}

/** A waypoint so near behind or beside her counts as passed. Ours. */
const PASSED_WITHIN_NM = 0.05;

/** No boat of ours comes along her track faster, current and a hasty entry included. Ours. */
const FASTEST_KN = 25;
/** Running off or lying to she comes back along it no faster. Ours. */
const FASTEST_BACK_KN = 4;
const ROOM_NM = 10;

/** She is taken to have come on rather than back, unless what lies behind is nearer by more than this. Ours. */
const CLEARLY_NEARER_NM = 1;

/** A position older than this is said to be old. Ours. */
const OLD_H = 12;

/** Farther from the track than this, she is said to be off it. Ours. */
const OFF_TRACK_NM = 30;

/**
 * The latest logged place since the start of the passage, and the waypoints that lie before her from there.
 *
 * Place and time stay as logged: the planner sails the nominal voyage from there to now. Which waypoints are behind her
 * is found place by place, no farther along the track than she can have come since the one before, so that a track
 * that crosses itself or goes back is not cut short. Waypoints once passed do not come back; the last one always stays.
 */
export function placeNow(passage: Passage, { effective, nowEpochMs }: Known): Noted<PlaceNow> {
  const { start, track } = passage;
  const places = effective.flatMap(({ number, statement, atEpochMs }): Fix[] => {
    if (statement.kind !== 'observation' || atEpochMs < start.epochMs) return [];
    const { lat, lon } = statement;
    return lat === undefined || lon === undefined ? [] : [{ lat, lon, number, epochMs: atEpochMs }];
  });
  const last = places.at(-1);
  if (last === undefined)
    return { value: { epochMs: start.epochMs, position: start.position, track, places }, notes: [] };
  const measured = measureTrack(track);
  const reached = alongAfter(measured, places, start.epochMs);
  const ahead = track.waypoints.filter(
    (_, index) => (measured.waypointAlongNm[index] ?? 0) > reached.alongNm + PASSED_WITHIN_NM,
  );
  const rest = ahead.length > 0 ? ahead : track.waypoints.slice(-1);
  const position = { lat: last.lat, lon: last.lon };
  const ageMin = (nowEpochMs - last.epochMs) / MS_PER_MIN;
  const old = ageMin > OLD_H * 60 ? ` It is ${minWords(ageMin)} old: the way since then is reckoned.` : '';
  const off =
    Math.abs(reached.offNm) > OFF_TRACK_NM
      ? ` She is ${Math.round(Math.abs(reached.offNm))} nm off the track, and goes on from where she is.`
      : '';
  return {
    value: {
      epochMs: last.epochMs,
      position,
      track: { waypoints: [{ ...position, name: null, leg: 'rhumb' }, ...rest] },
      places,
    },
    notes: [
      {
        code: 'log.position',
        entryNumbers: [last.number],
        text: `Position ${formatPosition(position)} at ${utcWords(last.epochMs)}.${old}${off}`,
      },
    ],
  };
}

/** How far along the track she is at the last place. */
function alongAfter(
  measured: MeasuredTrack,
  places: readonly Fix[],
  startEpochMs: number,
): { alongNm: number; offNm: number } {
  let [reached, epochMs] = [{ alongNm: 0, offNm: 0 }, startEpochMs];
  for (const place of places) {
    const sinceH = (place.epochMs - epochMs) / MS_PER_H;
    const toNm = reached.alongNm + sinceH * FASTEST_KN + ROOM_NM;
    const backNm = Math.max(
      legStartNm(measured, reached.alongNm),
      reached.alongNm - sinceH * FASTEST_BACK_KN - ROOM_NM,
    );
    const onward = nearestWithin(measured, place, { fromNm: reached.alongNm, toNm });
    const anyway = nearestWithin(measured, place, { fromNm: backNm, toNm });
    reached = Math.abs(anyway.offNm) + CLEARLY_NEARER_NM < Math.abs(onward.offNm) ? anyway : onward;
    epochMs = place.epochMs;
  }
  return reached;
}

/** She may have come back on the leg she was on, not on one she had finished. */
const legStartNm = (measured: MeasuredTrack, alongNm: number): number =>
  measured.legs[positionAtNm(measured, alongNm).legIndex]?.startNm ?? 0;

/** Nearest place on a stretch of the track. */
function nearestWithin(
  measured: MeasuredTrack,
  place: Position,
  stretch: { readonly fromNm: number; readonly toNm: number },
): { alongNm: number; offNm: number } {
  const { waypoints } = measured.track;
  const from = positionAtNm(measured, stretch.fromNm);
  const to = positionAtNm(measured, stretch.toNm);
  const inside = waypoints.filter((_, index) => {
    const alongNm = measured.waypointAlongNm[index] ?? 0;
    return alongNm > stretch.fromNm && alongNm < stretch.toNm;
  });
  const end = { ...to.position, name: null, leg: measured.legs[to.legIndex]?.kind ?? 'rhumb' };
  const part = measureTrack({ waypoints: [{ ...from.position, name: null, leg: 'rhumb' }, ...inside, end] });
  const found = nearestOnTrack(part, place);
  return { alongNm: stretch.fromNm + found.alongNm, offNm: found.offNm };
}
