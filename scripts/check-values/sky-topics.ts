import {
  moonAt,
  moonEventsBetween,
  sunAltitudeDeg,
  sunEventsBetween,
  sunSeen,
  type MoonEvent,
  type SunEvent,
} from '../../lib/sky/index.ts';
import { degFromRad } from '../../lib/units/index.ts';
import type { CheckItem, Topic } from './check-item.ts';
import { instantIn, numberIn, positionIn } from './inputs.ts';

const H_MS = 3_600_000;
const DAY_MS = 24 * H_MS;

/** Terrestrial time runs ahead of UTC by about a minute in all these years (57 s in 1990, 69 s in 2026). */
const TT_AHEAD_MS = 60_000;

const KINDS: Readonly<Record<string, SunEvent['kind'] | MoonEvent['kind']>> = {
  civilDawn: 'civil-dawn',
  civilDusk: 'civil-dusk',
  nauticalDawn: 'nautical-dawn',
  nauticalDusk: 'nautical-dusk',
  sunrise: 'sunrise',
  sunset: 'sunset',
  solarNoon: 'solar-noon',
  moonrise: 'moonrise',
  moonset: 'moonset',
};

const utcText = (epochMs: number): string => new Date(epochMs).toISOString();

function eventsBetween(
  span: { fromEpochMs: number; toEpochMs: number },
  at: { lat: number; lon: number },
): readonly (SunEvent | MoonEvent)[] {
  return [...sunEventsBetween(span, at), ...moonEventsBetween(span, at)];
}

/** For each expected key the event of its kind nearest to what is expected, within a day to either side of a span. */
function nearestEvents(item: CheckItem, span: { fromEpochMs: number; toEpochMs: number }): Record<string, unknown> {
  const wide = { fromEpochMs: span.fromEpochMs - DAY_MS, toEpochMs: span.toEpochMs + DAY_MS };
  const events = eventsBetween(wide, positionIn(item.inputs));
  return Object.fromEntries(
    Object.entries(item.expected).flatMap(([key, expected]) => {
      const kind = KINDS[key] ?? KINDS[/^(sunset|sunrise)Of/.exec(key)?.[1] ?? ''];
      if (kind === undefined || typeof expected !== 'string') return [];
      const [first] = events
        .filter((event) => event.kind === kind)
        .toSorted(
          (one, other) => Math.abs(one.epochMs - Date.parse(expected)) - Math.abs(other.epochMs - Date.parse(expected)),
        );
      return [[key, first === undefined ? null : utcText(first.epochMs)]];
    }),
  );
}

/** The observatory's words for days without rise or set, by the sun's height over the day. */
function observatoryFlags(
  span: { fromEpochMs: number; toEpochMs: number },
  at: { lat: number; lon: number },
): string[] {
  const altitudes: number[] = [];
  for (let t = span.fromEpochMs; t < span.toEpochMs; t += H_MS / 12) altitudes.push(sunAltitudeDeg(t, at));
  const [lowest, highest] = [Math.min(...altitudes), Math.max(...altitudes)];
  return [
    ...(lowest > -0.833 ? ['Object continuously above the Horizon'] : []),
    ...(highest < -0.833 ? ['Object continuously below the Horizon'] : []),
    ...(lowest > -6 ? ['Object continuously above the Twilight Limit'] : []),
    ...(highest < -6 ? ['Object continuously below the Twilight Limit'] : []),
  ];
}

function utcDayAnswers(item: CheckItem): Record<string, unknown> {
  const fromEpochMs = instantIn(item.inputs, 'utcDate');
  const span = { fromEpochMs, toEpochMs: fromEpochMs + DAY_MS };
  return { ...nearestEvents(item, span), flags: observatoryFlags(span, positionIn(item.inputs)) };
}

/** Events of one local mean solar day, null where the day has none. */
function solarDayAnswers(item: CheckItem): Record<string, unknown> {
  const at = positionIn(item.inputs);
  const fromEpochMs = instantIn(item.inputs, 'localSolarDate') - (at.lon / 15) * H_MS;
  const events = eventsBetween({ fromEpochMs, toEpochMs: fromEpochMs + DAY_MS }, at);
  return Object.fromEntries(
    Object.entries(KINDS).map(([key, kind]) => {
      const found = events.find((event) => event.kind === kind);
      return [key, found === undefined ? null : utcText(found.epochMs)];
    }),
  );
}

function localDayAnswers(item: CheckItem): Record<string, unknown> {
  const fromEpochMs = instantIn(item.inputs, 'localDate') - numberIn(item.inputs, 'utcOffsetH') * H_MS;
  return nearestEvents(item, { fromEpochMs, toEpochMs: fromEpochMs + DAY_MS });
}

/** The instant of an item, given in UTC or in terrestrial time. */
const instantOf = ({ inputs }: CheckItem): number =>
  inputs['utc'] === undefined ? instantIn(inputs, 'tt') - TT_AHEAD_MS : instantIn(inputs, 'utc');

function sunPositionAnswers(item: CheckItem): Record<string, unknown> {
  const at = positionIn(item.inputs);
  const seen = sunSeen(instantOf(item), at);
  return {
    altitude: sunAltitudeDeg(instantOf(item), at),
    altitudeApparent: seen.apparentAltitudeDeg,
    zenithApparent: 90 - seen.apparentAltitudeDeg,
    azimuth: seen.azimuthDegTrue,
  };
}

function moonAnswers(item: CheckItem): Record<string, unknown> {
  const { illuminatedRatio, waxing } = moonAt(instantOf(item), { lat: 0, lon: 0 });
  return {
    fraction: illuminatedRatio,
    // Meeus (1998), eq. 48.1: k = (1 + cos i) / 2.
    phaseAngleDeg: degFromRad(Math.acos(2 * illuminatedRatio - 1)),
    waxing,
  };
}

export const skyTopics: readonly Topic[] = [
  { topic: 'sun-moon-day-utc', compute: utcDayAnswers },
  { topic: 'sun-day-at-sea', compute: solarDayAnswers },
  { topic: 'sun-event', compute: localDayAnswers },
  { topic: 'sun-position', compute: sunPositionAnswers },
  { topic: 'moon-illumination', compute: moonAnswers },
];
