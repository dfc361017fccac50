import { describe, expect, test } from 'vitest';
import { prepareWindows } from '../../lib/planner/index.ts';
import type { Preparation } from '../../lib/planner/prepare.ts';
import { slotEpochMs } from '../../lib/time/index.ts';
import type { JobWindows } from '../../lib/windows/index.ts';
import { referenceTool } from '../reference-tools.ts';
import { BOXES, committedValues, valuesByEcCodes } from './by-hand/grid-values.ts';
import { momentsAlong, windowsByHand } from './by-hand/windows-by-hand.ts';
import type { RealVoyage } from './real-passage.ts';
import { REAL_BASE_EPOCH_MS, REAL_VOYAGES, REAL_WORKS, realForecast, realPassage } from './real-passage.ts';

// Windows on a real forecast against a search that shares no code with lib: grid values as ecCodes prints them, own
// interpolation, sailing and vectors, every start and every instant tried. Source and licence: golden/windows.

const HANDLINGS = [
  { id: 'hold-course', twaDeg: null, noGoKn: 40 },
  { id: 'run-off', twaDeg: 170, noGoKn: 30 },
] as const;

const grib = referenceTool('grib_get_data');
const values = committedValues();
const forecast = realForecast();

function prepared(voyage: RealVoyage): { preparation: Preparation; windows: readonly JobWindows[] } {
  const passage = realPassage(voyage);
  const found = prepareWindows({ passage, forecast, nowEpochMs: passage.start.epochMs });
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found.value;
}

function byHand(voyage: RealVoyage) {
  const box = BOXES.find(({ name }) => name === voyage.box);
  if (box === undefined) throw new Error(`no box ${voyage.box}`);
  return {
    box,
    values,
    startH: 3,
    endH: 48,
    slotMin: 10,
    from: voyage.from,
    boatKn: voyage.boatKn,
    closestTwaDeg: 45,
    deckHeightM: 2,
  };
}

describe.skipIf(grib === null)('grid values', () => {
  test('committed are what ecCodes prints', () => {
    expect(valuesByEcCodes(grib ?? '')).toEqual(values);
    // ecCodes runs once for each field; a busy machine takes its time.
  }, 120_000);
});

describe.each(REAL_VOYAGES)('windows in the $box at $boatKn kn', (voyage) => {
  const { preparation, windows } = prepared(voyage);
  const hand = byHand(voyage);
  const hourOf = (slot: number): number =>
    Math.round(((slotEpochMs(preparation.grid, slot) - REAL_BASE_EPOCH_MS) / 3_600_000) * 1e6) / 1e6;
  const cases = REAL_WORKS.flatMap((work) => HANDLINGS.map((handling) => ({ ...work, handling })));

  test('the boat sails where arithmetic says she does', () => {
    const { lons } = momentsAlong(hand);
    expect(preparation.nominal.lon).toHaveLength(lons.length);
    for (const [i, lon] of lons.entries()) {
      expect(Math.abs((((preparation.nominal.lon[i] ?? 0) - lon + 540) % 360) - 180)).toBeLessThan(1e-5);
    }
  });

  test.each(cases)(
    '$id under $handling.id: first and last start of every window',
    ({ id, minutes, noGoKn, handling }) => {
      const work = { minutes, deckNoGoKn: noGoKn, handlingNoGoKn: handling.noGoKn, twaDeg: handling.twaDeg };
      const expected = windowsByHand(hand, work);
      // No instant lies so near a limit that float32 could decide it (its error here is below 1e-5 kn).
      expect(expected.leastRoomKn).toBeGreaterThan(1e-3);
      const found =
        windows.find(({ jobId }) => jobId === id)?.windows.filter(({ handlingId }) => handlingId === handling.id) ?? [];
      const round = (hourH: number): number => Math.round(hourH * 1e6) / 1e6;
      expect(found.map((window) => [hourOf(window.firstStartSlot), hourOf(window.lastStartSlot)])).toEqual(
        expected.windows.map(({ firstH, lastH }) => [round(firstH), round(lastH)]),
      );
      expect(expected.windows.length).toBeGreaterThan(0);
      for (const window of found) {
        expect(window.conditional).toBe(true);
        expect(window.unknownLimits).toEqual(['sea-height', 'handling-sea']);
        expect(window.probability).toBe(1);
      }
    },
  );

  test('a lull lies between spells of more wind, so that every job has to wait for something', () => {
    const { mostWindKn, leastWindKn } = windowsByHand(hand, {
      minutes: 40,
      deckNoGoKn: 7,
      handlingNoGoKn: 40,
      twaDeg: null,
    });
    expect(mostWindKn).toBeGreaterThan(15);
    expect(leastWindKn).toBeLessThan(3);
    for (const { windows: ofJob } of windows) expect(ofJob.length).toBeGreaterThanOrEqual(3);
  });
});
