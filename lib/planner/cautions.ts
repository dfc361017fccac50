import { goesByAir } from '../jobs/index.ts';
import type { Preparation } from './prepare.ts';
import type { Report } from './report.ts';

/** Beyond these the true positions tell against the search, and the plan says so. */
const FAR_OFF_NM = 5;
const PROVISIONAL_H = 24;

/** What every plan says, and what this one must add. */
export function cautionsFor(preparation: Preparation, report: Report, notes: readonly string[]): string[] {
  return [
    'Advice, not permission: the skipper looks, and decides. Rules of the flag state, class and race rules, makers’ instructions and licensed practice come first.',
    'Clip on before leaving the cockpit, stay clipped on, and go over each step below before going up.',
    'No sleep plan of a lone sailor satisfies COLREG Rule 5 (look-out): set radar and AIS alarms before every sleep.',
    'Not in the figures: gear failure, squalls, errors of the forecast model itself, and how you feel.',
    `Starts later than ${PROVISIONAL_H} h after the forecast’s base time are provisional: plan again with the next forecast.`,
    ...placeCautions(preparation, report),
    ...jobCautions(preparation, report),
    ...sailCaution(preparation, report),
    ...lockerCaution(preparation),
    ...airCaution(preparation, report),
    ...positionCaution(report),
    ...notes,
  ];
}

function placeCautions(preparation: Preparation, report: Report): string[] {
  const places = new Set(
    report.entries.flatMap(({ placed }) => preparation.units[placed.unit]?.block.steps.map((step) => step.place) ?? []),
  );
  const cautions: string[] = [];
  if (places.has('aloft'))
    cautions.push(
      'Aloft alone: two halyards or a halyard and a second line, tools on lanyards, and a way down that needs no help.',
    );
  if (places.has('overside'))
    cautions.push(
      'Overside alone: a way back on board that works with cold hands, engine stopped and key out, and never in a swell that lifts the hull.',
    );
  return cautions;
}

function jobCautions(preparation: Preparation, report: Report): string[] {
  const jobs = new Set(report.entries.flatMap(({ placed }) => preparation.units[placed.unit]?.job ?? []));
  return [...new Set([...jobs].flatMap((job) => job.cautions))];
}

/** A plan that takes the mainsail down and does not get it up again must say so. */
function sailCaution(preparation: Preparation, report: Report): string[] {
  const { sailStates } = preparation.passage.boat;
  const mainsail = (id: string): string => sailStates.find((state) => state.id === id)?.mainsail ?? 'none';
  const [last] = report.entries.slice(-1);
  if (last === undefined) return [];
  const block = preparation.units[last.placed.unit]?.block;
  const endId = (last.placed.finishes ? block?.sailStateAfter : null) ?? last.placed.sailStateId;
  if (mainsail(endId) !== 'none' || mainsail(preparation.passage.start.sailStateId) === 'none') return [];
  return [
    'This plan takes the mainsail down and does not get it up again before it ends: be sure you can sail on without it, or do not begin.',
  ];
}

function lockerCaution(preparation: Preparation): string[] {
  return preparation.passage.locker.items.length > 0
    ? []
    : [
        'The passage lists nothing in the locker, so parts and materials were not counted: lay them out before you start.',
      ];
}

/** Cures and soaks that go by an air temperature nobody knows. */
function airCaution({ units, fromSlot, lag }: Preparation, { entries }: Report): string[] {
  const { airC } = lag.conditionsAt(0).weather;
  const isUnknown = airC.subarray(fromSlot).some((value) => Number.isNaN(value));
  const waiting = entries.flatMap(({ placed }) => {
    const unit = units[placed.unit];
    const wait = unit?.block.waitAfter ?? null;
    return unit !== undefined && placed.finishes && wait !== null && goesByAir(wait) ? [unit.job.name] : [];
  });
  if (!isUnknown || waiting.length === 0) return [];
  return [
    `The forecast does not hold all of the air temperature, so the wait after ${[...new Set(waiting)].join(', ')} was counted as in the coldest air in which it goes on. Look at the thermometer.`,
  ];
}

function positionCaution(report: Report): string[] {
  const [last] = report.entries.slice(-1);
  if (last === undefined) return [];
  const differNm = Math.abs(report.lostNm - last.placed.lagNm);
  if (differNm <= FAR_OFF_NM) return [];
  return [
    `Sailed with true positions the boat ends ${differNm.toFixed(0)} nm from where the search reckoned it; the figures shown are those of the true positions.`,
  ];
}
