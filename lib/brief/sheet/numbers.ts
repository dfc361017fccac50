import { type CheckNumbers, type StartStopNumbers, startStopNumbers } from '../../planner/index.ts';
import { moonEventsBetween, sunEventsBetween } from '../../sky/index.ts';
import { MS_PER_H } from '../../time/index.ts';
import type { NumberRow } from './sheet.ts';
import { sheetTimes } from './sheet-times.ts';
import type { Begin, SheetWork } from './sheet-work.ts';

const DAY_H = 24;
const UNKNOWN = 'unknown';

/** Numbers to start and to stop at, those of the plan; of a job that is not planned, of all its steps under its handling. */
export function startAndStop(work: SheetWork): StartStopNumbers {
  const { planned, job, handling, sailStateId, passage } = work;
  if (planned.startCheck !== null) return planned.startCheck;
  const part = { steps: job.steps, handling, sailStateId };
  return startStopNumbers([part], { boat: passage.boat, deckHeightM: passage.settings.deckHeightM });
}

const NOTHING_KNOWN: CheckNumbers = {
  instrumentWindKn: null,
  deckWindKn: null,
  instrumentGustKn: null,
  deckGustKn: null,
  seaM: null,
  trueWindKn: null,
};

/** Expected, start, stop for everything that can be read off; the value seen is written beside it. */
export function numberRows(work: SheetWork): NumberRow[] {
  const { begin, picture, planned } = work;
  const numbers = { ...startAndStop(work), expected: planned.startCheck?.expected ?? NOTHING_KNOWN };
  const missing = missingText(work);
  const periodS = valueAt(work, picture.wavePeriodS);
  const period = periodS === null ? '' : `, ${periodS.toFixed(0)} s`;
  const row = (quantity: string, of: (numbers: CheckNumbers) => string, isAsked = true): NumberRow[] =>
    isAsked
      ? [
          {
            quantity,
            expected: of(numbers.expected) === '' ? missing : of(numbers.expected),
            startAt: of(numbers.start),
            stopAt: of(numbers.stop),
          },
        ]
      : [];
  const sea = row('Sea; period', ({ seaM }) => (seaM === null ? '' : `${seaM.toFixed(1)} m`));
  return [
    ...row('Wind (deck), kn', (of) => windText(of.instrumentWindKn, of.deckWindKn)),
    ...row('Gust (deck), kn', (of) => windText(of.instrumentGustKn, of.deckGustKn)),
    ...row('True wind 10 m, kn', ({ trueWindKn }) => windText(trueWindKn, null), numbers.stop.trueWindKn !== null),
    ...sea.map((of) => ({ ...of, expected: `${of.expected}${period}` })),
    ...otherRows(work),
    ...(begin === null ? [] : skyRows(work, begin)),
  ];
}

/** `35 (25)`: at the instrument, and on deck. */
function windText(shownKn: number | null, deckKn: number | null): string {
  const deck = deckKn === null ? '' : `(${deckKn.toFixed(0)})`;
  return shownKn === null ? deck : `${shownKn.toFixed(0)} ${deck}`.trimEnd();
}

/** A job without an hour has no weather. */
const missingText = ({ begin }: SheetWork): string => (begin === null ? '' : UNKNOWN);

/** What is not wind and sea: sight, pressure, air, water, rain. */
function otherRows(work: SheetWork): NumberRow[] {
  const { job, picture } = work;
  const missing = missingText(work);
  const limits = job.steps.map((step) => step.limits);
  const airLeastC = most(limits.map((of) => of.airLeastC));
  const waterLeastC = most(limits.map((of) => of.seaWaterLeastC));
  const sightLeastNm = most(limits.map((of) => of.visibilityLeastNm));
  const rainMmPerH = valueAt(work, picture.rainMmPerH);
  const known = (values: Float32Array, unit: string): string => {
    const value = valueAt(work, values);
    return value === null ? missing : `${value.toFixed(0)} ${unit}`;
  };
  const [air, water] = [known(picture.airC, '°C'), known(picture.hours.seaWaterC, '°C')];
  return [
    leastRow('Visibility', known(picture.hours.visibilityNm, 'nm'), { least: sightLeastNm, unit: 'nm' }),
    { quantity: 'Barometer hPa', expected: '', startAt: 'steady', stopAt: '−1/h, −3/3 h' },
    ...(waterLeastC === null
      ? [leastRow('Air; sea water', together(air, water), { least: airLeastC, unit: '°C' })]
      : [
          leastRow('Air', air, { least: airLeastC, unit: '°C' }),
          leastRow('Sea water', water, { least: waterLeastC, unit: '°C' }),
        ]),
    ...(limits.some(({ rain }) => rain === 'none')
      ? [
          {
            quantity: 'Rain',
            expected: rainMmPerH === null ? missing : `${rainMmPerH.toFixed(1)} mm/h`,
            startAt: 'none',
            stopAt: 'any',
          },
        ]
      : []),
  ];
}

const together = (air: string, water: string): string => (air === water ? air : `${air}; ${water}`);

function most(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : Math.max(...known);
}

const leastRow = (
  quantity: string,
  expected: string,
  { least, unit }: { least: number | null; unit: string },
): NumberRow => ({
  quantity,
  expected,
  startAt: least === null ? '' : `${least} ${unit}`,
  stopAt: least === null ? '' : `below ${least}`,
});

/** Sunset and moonrise of the 24 h from the start, where the work begins. */
function skyRows({ job, names }: SheetWork, { startEpochMs, at }: Begin): NumberRow[] {
  const times = sheetTimes(names.shipTimeOffsetMin);
  const sunset = sunEventsBetween(dayFrom(startEpochMs), at).find(({ kind }) => kind === 'sunset');
  const duskEpochMs = daylightEnd({ startEpochMs, at });
  const moonrise = moonEventsBetween(dayFrom(startEpochMs), at).find(({ kind }) => kind === 'moonrise');
  const needsLight = job.steps.some(({ limits }) => limits.daylight === 'required');
  const textOf = (epochMs: number | undefined): string =>
    epochMs === undefined ? 'none in 24 h' : times.ship(epochMs);
  return [
    {
      quantity: needsLight ? 'Sunset; last light' : 'Sunset',
      expected: textOf(sunset?.epochMs),
      startAt: '',
      stopAt: needsLight && duskEpochMs !== null ? times.ship(duskEpochMs) : '',
    },
    {
      quantity: 'Moonrise',
      expected: textOf(moonrise?.epochMs),
      startAt: '',
      stopAt: '',
    },
  ];
}

/** The end of civil twilight within 24 h of the start, to which work that needs light is planned; null: there is none. */
export const daylightEnd = ({ startEpochMs, at }: Pick<Begin, 'startEpochMs' | 'at'>): number | null =>
  sunEventsBetween(dayFrom(startEpochMs), at).find(({ kind }) => kind === 'civil-dusk')?.epochMs ?? null;

const dayFrom = (fromEpochMs: number): { fromEpochMs: number; toEpochMs: number } => ({
  fromEpochMs,
  toEpochMs: fromEpochMs + DAY_H * MS_PER_H,
});

/** The value of the slot in which the work begins; null: not known, or no work is planned. */
function valueAt({ picture, begin }: Pick<SheetWork, 'picture' | 'begin'>, values: Float32Array): number | null {
  if (begin === null) return null;
  const slot = picture.slotEpochMs.findLastIndex((epochMs) => epochMs <= begin.startEpochMs);
  const value = slot < 0 ? undefined : values[slot];
  return value === undefined || Number.isNaN(value) ? null : value;
}
