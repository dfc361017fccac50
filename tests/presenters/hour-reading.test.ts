import { describe, expect, it } from 'vitest';
import type { WindowsPicture } from '../../lib/planner/index.ts';
import { bindingIds, bindingLanes } from '../../server/presenters/windows-binding-lanes.ts';
import { planStrip } from '../../server/presenters/plan-strip.ts';
import { strip } from '../../server/presenters/strip.ts';
import { binsOf } from '../../server/presenters/strip-bins.ts';
import type { HourReading } from '../../server/presenters/strip-model.ts';
import { timeTexts } from '../../server/presenters/time-texts.ts';
import { PLAIN_UNITS } from '../../server/presenters/units/shown-units.ts';
import { at } from '../pages/fixture-weather.ts';
import { picture, plan } from '../pages/fixture-plan.ts';
import { view, windowsAnswer } from '../pages/fixture-windows.ts';

const times = timeTexts(picture.shipTimeOffsetMin);
const jobOf = (jobId: string): (typeof plan.jobs)[number] | null =>
  plan.jobs.find((job) => job.jobId === jobId) ?? null;

function readingOf(jobId: string | null, hourUtc: string | null = null): HourReading {
  const job = jobId === null ? null : jobOf(jobId);
  const { reading } = strip({ plan, picture, job, times, hourEpochMs: hourUtc === null ? null : at(hourUtc) });
  if (reading === undefined) throw new Error('no reading');
  return reading;
}

/** What is told of a term at an hour. */
function told({ terms, rows }: HourReading, utc: string, term: string): string | undefined {
  return rows.find((row) => row.utc === utc)?.values[terms.indexOf(term)];
}

describe('hours of the passage page', () => {
  it('every full hour ahead: ship’s time and UTC with their weekdays', () => {
    const { rows, terms } = readingOf('drop');
    expect(rows[0]?.values.slice(0, 2)).toEqual(['Thu 28 May 09:00', 'Wed 21:00 UTC']);
    expect(rows.every(({ values }) => values.length === terms.length)).toBe(true);
    expect(rows.every(({ values }) => values.every((text) => text !== '' && !text.includes('NaN')))).toBe(true);
  });

  it('an hour asked for is shown; one between two hours shows the one before', () => {
    const shownOf = (reading: HourReading): string | undefined => reading.rows[reading.shownIndex]?.utc;
    expect(shownOf(readingOf('drop', '2026-05-28T10:00Z'))).toBe('2026-05-28T10:00Z');
    expect(shownOf(readingOf('drop', '2026-05-28T10:50Z'))).toBe('2026-05-28T10:00Z');
    expect(shownOf(readingOf('drop', '2020-01-01T00:00Z'))).toBe('2026-05-27T21:00Z');
  });

  it('sea 2 m, waves 9 s, fixture 24 h ahead: steepness 2 / (1.56 · 9²) = 0.016', () => {
    // Deep-water wave length 1.56 T² m: WMO-No. 702, Guide to wave analysis and forecasting, §1.2.
    expect(told(readingOf('drop'), '2026-05-28T20:00Z', 'Steepness')).toBe('0.016');
  });

  it('what the forecast does not hold is unknown, without a unit', () => {
    const reading = readingOf('drop');
    expect(told(reading, '2026-05-28T10:00Z', 'Rain')).toBe('unknown');
    expect(told(reading, '2026-05-28T10:00Z', 'Visibility')).toBe('8.0 nm');
    expect(told(reading, '2026-05-30T10:00Z', 'Visibility')).toBe('unknown');
  });

  it('room to no-go: every limit of the job, over by so much where it is passed', () => {
    const reading = readingOf('drop');
    expect(told(reading, '2026-05-27T21:00Z', 'Room to no-go')).toMatch(/wind [\d.]+ kn/);
    const block = readingOf('block');
    const blown = block.rows.map((row) => told(block, row.utc, 'Room to no-go'));
    expect(blown.some((text) => text?.includes('over by'))).toBe(true);
  });

  it('start times: inside and outside, as the windows of the picture have them', () => {
    const reading = readingOf('drop');
    const { windows } = picture.jobs.find(({ jobId }) => jobId === 'drop') ?? { windows: [] };
    for (const row of reading.rows) {
      const isIn = windows.some(
        (span) => span.firstStartEpochMs <= row.fromEpochMs && row.fromEpochMs <= span.lastStartEpochMs,
      );
      expect(told(reading, row.utc, 'A start then')).toBe(isIn ? 'in its start times' : 'outside its start times');
    }
  });

  it('pressing an hour keeps the job; a start there is one press away', () => {
    const reading = readingOf('drop');
    expect(reading.rows[0]?.href).toBe('?job=drop&hour=2026-05-27T21:00Z#reading');
    expect(reading.more?.hrefBefore).toBe('/windows?job=drop&start=');
  });

  it('no job: no deck wind, no limits, and nothing that leads to its windows', () => {
    const reading = readingOf(null);
    expect(told(reading, '2026-05-28T10:00Z', 'Deck wind')).toBe('no job');
    expect(reading.terms).not.toContain('Room to no-go');
    expect(reading.more).toBeNull();
  });
});

describe('hours of the plan page', () => {
  const { reading, table } = planStrip(view, times);

  it('the same in figures: deck wind and gust where a job is worked, no work where none is', () => {
    const names = plan.jobs.map(({ name }) => name);
    const deckOf = (isShown: (planned: string) => boolean): string[] =>
      table.rows.filter((row) => isShown(row.at(-1) ?? '')).flatMap((row) => row.slice(2, 4));
    const worked = deckOf((planned) => names.includes(planned));
    const free = deckOf((planned) => planned === 'watch' || planned === 'sleep');
    expect(table.head[2]).toBe('Deck wind, kn, at work');
    expect(worked.length).toBeGreaterThan(0);
    expect(worked.filter((cell) => !/^\d/.test(cell))).toEqual([]);
    expect(free.length).toBeGreaterThan(0);
    expect(free.filter((cell) => cell !== 'no work')).toEqual([]);
  });

  it('deck wind is that of the work of the hour, and none where nobody works', () => {
    if (reading === undefined) throw new Error('no reading');
    const rows = reading.rows.map((row) => ({
      planned: told(reading, row.utc, 'Planned then') ?? '',
      wind: told(reading, row.utc, 'Deck wind') ?? '',
    }));
    const names = plan.jobs.map(({ name }) => name);
    const worked = rows.filter(({ planned }) => names.some((name) => planned.includes(name)));
    const free = rows.filter(({ planned }) => planned === 'watch' || planned === 'sleep');
    expect(worked.length).toBeGreaterThan(2);
    expect(worked.every(({ wind }) => wind.endsWith(' kn'))).toBe(true);
    expect(free.length).toBeGreaterThan(2);
    expect(free.every(({ wind }) => wind === 'no work')).toBe(true);
  });
});

describe('lanes that bind', () => {
  const shown = windowsAnswer({ jobId: 'drop', blockIndex: 0, handlingId: 'run-off' }).picture;
  const axis = { ...strip({ plan, picture, job: jobOf('drop'), times }).axis };
  const lanesOf = (changed: Partial<WindowsPicture>): readonly string[] => {
    const drawn = { ...shown, ...changed };
    const on = { bins: binsOf(drawn.slotEpochMs, axis), units: PLAIN_UNITS, binding: bindingIds(drawn, axis) };
    return Object.keys(bindingLanes(drawn, on));
  };
  const limited = { ...shown.limits, seaWaterLeastC: 5, steepnessNoGoRatio: 0.5, visibilityLeastNm: null };
  const [anyStart] = shown.hourStarts;
  const boundBy = (limit: 'sea-temperature' | 'steepness', atEpochMs: number): WindowsPicture['hourStarts'] =>
    anyStart === undefined || anyStart.binding === null
      ? []
      : [{ ...anyStart, atEpochMs, binding: { ...anyStart.binding, limit } }];

  it('no limit, or one that is far off and known all along: no lane', () => {
    expect(lanesOf({})).toEqual([]);
    expect(lanesOf({ limits: limited, hourStarts: [] })).toEqual([]);
  });

  it.each(['sea-temperature', 'steepness'] as const)(
    '%s is the tightest for one start of the hours: its lane',
    (limit) => {
      const ids = { 'sea-temperature': 'sea-water', steepness: 'steepness' };
      expect(lanesOf({ limits: limited, hourStarts: boundBy(limit, axis.fromEpochMs) })).toEqual([ids[limit]]);
      // Beyond the hours shown it binds nothing that is seen.
      expect(lanesOf({ limits: limited, hourStarts: boundBy(limit, axis.toEpochMs) })).toEqual([]);
    },
  );

  it('broken somewhere, or unknown somewhere: its lane', () => {
    expect(lanesOf({ limits: { ...limited, seaWaterLeastC: 16.9 } })).toEqual(['sea-water']);
    expect(lanesOf({ limits: { ...limited, steepnessNoGoRatio: 0.02 } })).toEqual(['steepness']);
    const seaWaterC = shown.hours.seaWaterC.map((value, i) => (i < 12 ? Number.NaN : value));
    expect(lanesOf({ limits: limited, hours: { ...shown.hours, seaWaterC } })).toEqual(['sea-water']);
  });
});
