import type { Motion } from '../../boat/index.ts';
import { formatPosition, greatCirclePoint } from '../../geo/index.ts';
import { degFromRad, wrap360Deg } from '../../units/index.ts';
import { MS_PER_H } from '../../time/index.ts';
import { sailText } from '../export/job-words.ts';
import type { SheetFact } from './sheet.ts';
import { courseText, sheetTimes } from './sheet-times.ts';
import type { Begin, SheetWork } from './sheet-work.ts';

/** Slower than this a direction means nothing. */
const STILL_KN = 0.1;

/** Speed and direction through the water, drift included. */
export function wayMade({ velocity: { eastKn, northKn } }: Motion): {
  readonly speedKn: number;
  readonly towardDegTrue: number;
} {
  return { speedKn: Math.hypot(eastKn, northKn), towardDegTrue: wrap360Deg(degFromRad(Math.atan2(eastKn, northKn))) };
}

/** Handling, heading, sails, pilot, wind over the deck, and where she is at the end. */
export function lyingFacts(work: SheetWork): SheetFact[] {
  const { handling, names, sailStateId, begin } = work;
  if (handling === null) return [{ term: 'Handling', text: 'the boat has none for this job' }];
  return [
    { term: 'Handling', text: handling.name },
    { term: 'Sails', text: sailText(sailStateId, names) },
    { term: 'Pilot', text: pilotText(work) },
    ...(begin === null ? [] : movingFacts(work, begin)),
  ];
}

function pilotText({ handling, begin }: SheetWork): string {
  const motion = begin?.motion ?? null;
  const heading = motion === null ? '' : `, heading ${courseText(motion.headingTowardDegTrue)}`;
  if (handling === null || handling.heading.kind === 'course')
    return motion === null ? 'steer the course' : `steer ${courseText(motion.headingTowardDegTrue)}`;
  return `hold the true wind at ${Math.abs(handling.heading.twaDeg)}°${heading}`;
}

function movingFacts({ entries, plan, names }: SheetWork, begin: Begin): SheetFact[] {
  const wind = entries[0]?.entry.deckWindKn ?? null;
  return [
    ...(wind === null
      ? []
      : [
          {
            term: 'Deck wind',
            text: `${wind.p50.toFixed(0)} kn (${wind.p10.toFixed(0)} to ${wind.p90.toFixed(0)})`,
          },
        ]),
    ...(begin.motion === null ? [] : [{ term: 'Way', text: wayText(begin.motion) }]),
    ...endFacts(begin, plan.entries, names.shipTimeOffsetMin),
  ];
}

function wayText(motion: Motion): string {
  const { speedKn, towardDegTrue } = wayMade(motion);
  return speedKn < STILL_KN ? 'none' : `${speedKn.toFixed(1)} kn toward ${courseText(towardDegTrue)}`;
}

/** Where the plan has her when the work ends, else where the way made brings her. */
function endFacts(begin: Begin, entries: SheetWork['plan']['entries'], shipTimeOffsetMin: number): SheetFact[] {
  const next = entries.find(({ startUtc }) => Date.parse(startUtc) === begin.endEpochMs);
  const end = next ?? reckonedEnd(begin);
  if (end === null) return [];
  const at = sheetTimes(shipTimeOffsetMin).ship(begin.endEpochMs);
  return [{ term: 'At the end', text: `${formatPosition({ lat: end.lat, lon: end.lon })}, ${at}` }];
}

function reckonedEnd({ motion, at, startEpochMs, endEpochMs }: Begin): { lat: number; lon: number } | null {
  if (motion === null) return null;
  const { speedKn, towardDegTrue } = wayMade(motion);
  const distanceNm = (speedKn * (endEpochMs - startEpochMs)) / MS_PER_H;
  return greatCirclePoint(at, { courseTowardDegTrue: towardDegTrue, distanceNm });
}
