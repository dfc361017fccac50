import { instrumentWindKn } from '../../boat/index.ts';
import { stopNumbersOf } from '../../jobs/index.ts';
import { START_RATIO } from '../../planner/index.ts';
import { moonEventsBetween, sunEventsBetween } from '../../sky/index.ts';
import { MS_PER_H } from '../../time/index.ts';
import type { NumberRow } from './sheet.ts';
import { sheetTimes } from './sheet-times.ts';
import type { Begin, SheetWork } from './sheet-work.ts';

const DAY_H = 24;
const UNKNOWN = 'not in the forecast';

/** The numbers at which work stops; null: the job has no such limit. */
export interface StopsOnBoard {
  readonly deckWindKn: number | null;
  /** As the instrument shows it; null also where the boat has no handling for the job. */
  readonly instrumentWindKn: number | null;
  readonly deckGustKn: number | null;
  readonly instrumentGustKn: number | null;
  /** The stricter of the job's and the handling's. */
  readonly seaM: number | null;
  /** Of the handling: true wind at 10 m. */
  readonly trueWindKn: number | null;
}

const NO_STOPS = { windKn: null, gustKn: null, seaM: null } as const;

/** The strictest limits of the job's steps, on the deck and as the boat's own instrument shows them. */
export function stopsOnBoard(work: SheetWork): StopsOnBoard {
  const { job, handling } = work;
  const { windKn, gustKn, seaM } = stopNumbersOf(job) ?? NO_STOPS;
  const seas = [seaM, handling?.limits.seaHeightM.noGo ?? null].filter((value) => value !== null);
  return {
    deckWindKn: windKn,
    instrumentWindKn: onInstrument(work, windKn),
    deckGustKn: gustKn,
    instrumentGustKn: onInstrument(work, gustKn),
    seaM: seas.length === 0 ? null : Math.min(...seas),
    trueWindKn: handling?.limits.trueWindKn.noGo ?? null,
  };
}

function onInstrument({ passage, handling, sailStateId }: SheetWork, deckWindKn: number | null): number | null {
  if (deckWindKn === null || Number.isNaN(deckWindKn) || handling === null) return null;
  const { boat, settings } = passage;
  return instrumentWindKn(boat, handling, { deckWindKn, deckHeightM: settings.deckHeightM, sailStateId });
}

/** Expected, start, stop for everything that can be read off; the value seen is written beside it. */
export function numberRows(work: SheetWork): NumberRow[] {
  const stops = stopsOnBoard(work);
  const { shown, picture, passage, begin } = work;
  const { instrumentHeightM } = passage.boat;
  const missing = missingText(work);
  const at = (values: Float32Array | undefined): number | null => valueAt(work, values);
  const windKn = begin === null ? null : (work.entries[0]?.entry.deckWindKn?.p50 ?? null);
  const gustKn = at(shown?.deckGustKn);
  const wind = (quantity: string, expectedKn: number | null, stopKn: number | null): NumberRow =>
    numberRow(quantity, {
      missing,
      expected: expectedKn,
      startAt: scaled(stopKn),
      stopAt: stopKn,
      unit: 'kn',
      digitCount: 0,
    });
  return [
    wind(`Mean wind, instrument (${instrumentHeightM} m)`, onInstrument(work, windKn), stops.instrumentWindKn),
    wind(`Mean wind, deck (${passage.settings.deckHeightM} m)`, windKn, stops.deckWindKn),
    wind(`Gust, instrument (${instrumentHeightM} m)`, onInstrument(work, gustKn), stops.instrumentGustKn),
    wind(`Gust, deck (${passage.settings.deckHeightM} m)`, gustKn, stops.deckGustKn),
    wind('True wind (10 m), handling', begin?.wind?.windKn ?? null, stops.trueWindKn),
    numberRow('Sea, significant', {
      missing,
      expected: at(picture.seaHeightM.p50),
      startAt: scaled(stops.seaM),
      stopAt: stops.seaM,
      unit: 'm',
      digitCount: 1,
    }),
    ...otherRows(work, at),
    ...(begin === null ? [] : skyRows(work, begin)),
  ];
}

/** A job without an hour has no weather. */
const missingText = ({ begin }: SheetWork): string => (begin === null ? '' : UNKNOWN);

const scaled = (value: number | null): number | null => (value === null ? null : value * START_RATIO);

interface RowValues {
  /** What stands for a value that is not known. */
  readonly missing: string;
  readonly expected: number | null;
  readonly startAt: number | null;
  readonly stopAt: number | null;
  readonly unit: string;
  readonly digitCount: number;
}

function numberRow(quantity: string, { missing, expected, startAt, stopAt, unit, digitCount }: RowValues): NumberRow {
  const text = (value: number): string => `${value.toFixed(digitCount)} ${unit}`;
  return {
    quantity,
    expected: expected === null ? missing : text(expected),
    startAt: startAt === null ? '' : text(startAt),
    stopAt: stopAt === null ? '' : text(stopAt),
  };
}

/** What is not wind and sea: air, water, rain, sight, pressure. */
function otherRows(work: SheetWork, at: (values: Float32Array) => number | null): NumberRow[] {
  const { job, picture } = work;
  const missing = missingText(work);
  const limits = job.steps.map((step) => step.limits);
  const most = (values: readonly (number | null)[]): number | null => {
    const known = values.filter((value) => value !== null);
    return known.length === 0 ? null : Math.max(...known);
  };
  const airLeastC = most(limits.map(({ airLeastC: least }) => least));
  const seaLeastC = most(limits.map(({ seaWaterLeastC: least }) => least));
  const sightLeastNm = most(limits.map(({ visibilityLeastNm: least }) => least));
  const airC = at(picture.airC);
  const rainMmPerH = at(picture.rainMmPerH);
  const isDry = limits.some(({ rain }) => rain === 'none');
  const leastText = (value: number | null, unit: string): string => (value === null ? '' : `under ${value} ${unit}`);
  const atLeast = (value: number | null, unit: string): string => (value === null ? '' : `${value} ${unit} or more`);
  return [
    { quantity: 'Wave period', expected: '', startAt: '', stopAt: '' },
    {
      quantity: 'Visibility',
      expected: '',
      startAt: atLeast(sightLeastNm, 'nm'),
      stopAt: leastText(sightLeastNm, 'nm'),
    },
    {
      quantity: 'Barometer, hPa',
      expected: '',
      startAt: 'steady',
      stopAt: '−1/h, −3/3 h',
    },
    {
      quantity: 'Air',
      expected: airC === null ? missing : `${airC.toFixed(0)} °C`,
      startAt: atLeast(airLeastC, '°C'),
      stopAt: leastText(airLeastC, '°C'),
    },
    ...(seaLeastC === null
      ? []
      : [
          {
            quantity: 'Sea water',
            expected: '',
            startAt: atLeast(seaLeastC, '°C'),
            stopAt: leastText(seaLeastC, '°C'),
          },
        ]),
    ...(isDry
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
      quantity: 'Sunset; last light',
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
function valueAt({ picture, begin }: SheetWork, values: Float32Array | undefined): number | null {
  if (begin === null || values === undefined) return null;
  const slot = picture.slotEpochMs.findLastIndex((epochMs) => epochMs <= begin.startEpochMs);
  const value = slot < 0 ? undefined : values[slot];
  return value === undefined || Number.isNaN(value) ? null : value;
}
