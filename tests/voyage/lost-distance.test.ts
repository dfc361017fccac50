import { describe, expect, test } from 'vitest';
import type { SailedAs } from '../../lib/voyage/index.ts';
import { lagTable, lostNmSums, sailNominal } from '../../lib/voyage/index.ts';
import { boatAt, gridOf, handling, steadyWind, trackThrough } from './sailing-world.ts';

// Six knots east in 15 kn of wind; what each way of sailing makes good along the track, worked by hand.

const SLOTS = 145;

function world(fromDegTrue: number) {
  const track = trackThrough([-35, -30], [-35, 0]);
  const [boat, grid, sampleReference] = [boatAt(6), gridOf(SLOTS), steadyWind(15, fromDegTrue)];
  const nominal = sailNominal({ boat, sailStateId: 'full-main', track, grid, sampleReference });
  const table = lagTable({
    nominal,
    track,
    boat,
    deckHeightM: 2,
    sampleScenarios: sampleReference,
    sampleReference,
    lateSlotCount: SLOTS,
  });
  const lostNm = (sailed: SailedAs, slots: number): number =>
    lostNmSums(table.conditionsAt(0), nominal.alongNm, sailed)[slots] ?? Number.NaN;
  return { table, nominal, lostNm };
}

const RAD = Math.PI / 180;
const held = (sailStateId: string): SailedAs => ({ handling: null, sailStateId });
const under = (id: string): SailedAs => ({ handling: handling(id), sailStateId: 'full-main' });

describe('miles lost against the nominal voyage', () => {
  test('none while the course is held as planned, by itself or as a handling', () => {
    expect(world(180).lostNm(held('full-main'), 60)).toBeCloseTo(0, 6);
    expect(world(180).lostNm(under('hold-course'), 60)).toBeCloseTo(0, 6);
  });

  test('half of it under headsail alone, which here sails half as fast', () => {
    expect(world(180).lostNm(held('headsail-only'), 60)).toBeCloseTo(30, 6);
  });

  test('running off at 170° with the wind abeam: heading 10° off dead downwind on the side nearer the course', () => {
    // Wind from the south blows to the north; 10° nearer east: sin 10° of six knots along the track.
    expect(world(180).lostNm(under('run-off'), 60)).toBeCloseTo(60 * (1 - Math.sin(10 * RAD)), 5);
  });

  test('running off with the wind ahead loses the way made back as well', () => {
    // The nominal voyage beats at cos 45°; running off goes back at cos 10°.
    expect(world(90).lostNm(under('run-off'), 60)).toBeCloseTo(60 * (Math.SQRT1_2 + Math.cos(10 * RAD)), 5);
  });

  test('running off with the wind astern loses next to nothing', () => {
    expect(world(270).lostNm(under('run-off'), 60)).toBeCloseTo(60 * (1 - Math.cos(10 * RAD)), 5);
  });

  test('hove to: forges ahead at 0.15 of the table, 50° off the wind, and drifts to leeward with 0.04 of the wind', () => {
    // Wind from the south: the tack with the heading nearer east points at 180° − 50° = 130°.
    const alongKn = 0.9 * Math.sin(130 * RAD);
    expect(world(180).lostNm(under('heave-to'), 60)).toBeCloseTo(60 - alongKn * 10, 5);
    // Wind from the west: heading 320° or 220°, both back; drift east.
    expect(world(270).lostNm(under('heave-to'), 60)).toBeCloseTo(60 - (0.9 * Math.sin(320 * RAD) + 0.6) * 10, 5);
  });

  test('sums run on slot by slot from nothing', () => {
    const { table, nominal } = world(180);
    const sums = lostNmSums(table.conditionsAt(0), nominal.alongNm, held('headsail-only'));
    expect(sums).toHaveLength(SLOTS + 1);
    expect(sums[0]).toBe(0);
    expect(sums[1]).toBeCloseTo(0.5, 9);
  });
});

describe('table of conditions by lag', () => {
  test('serves a lag from the nearest entry, and one ahead of time from the nominal voyage', () => {
    const { table, nominal } = world(180);
    expect(table.conditionsAt(0).course.lon).toEqual(nominal.lon);
    expect(table.indexOf(-3)).toBe(0);
    const lagNm = 32;
    const behind = table.conditionsAt(lagNm);
    expect(behind.course.alongNm[100]).toBeCloseTo(100 - lagNm, 6);
    expect(table.conditionsAt(lagNm)).toBe(behind);
  });

  test('has no upper end', () => {
    const { table } = world(180);
    expect(table.conditionsAt(5000).course.alongNm[100]).toBe(0);
  });

  test('the place it serves is never farther off than half its step', () => {
    const { table } = world(180);
    for (const lagNm of [0, 1, 3.9, 5, 11.7, 20.1, 47]) {
      const servedNm =
        (table.conditionsAt(0).course.alongNm[120] ?? 0) - (table.conditionsAt(lagNm).course.alongNm[120] ?? 0);
      expect(Math.abs(servedNm - lagNm)).toBeLessThanOrEqual(4 + 1e-9);
    }
  });

  test('tells miles lost between two slots, at any lag, to the end of the voyage', () => {
    const { table } = world(180);
    const span = { ...held('headsail-only'), fromSlot: 12, toSlot: 72 };
    expect(table.lostNm(0, span)).toBeCloseTo(30, 6);
    expect(table.lostNm(40, span)).toBeCloseTo(30, 6);
    expect(table.lostNm(40, { ...span, toSlot: SLOTS - 1 })).toBeCloseTo((SLOTS - 1 - 12) / 2, 6);
  });

  test('with fewer slots reckoned for a late boat, miles lost up to their end stand beyond them', () => {
    const track = trackThrough([-35, -30], [-35, 0]);
    const [boat, grid, sampleReference] = [boatAt(6), gridOf(SLOTS), steadyWind(15, 180)];
    const nominal = sailNominal({ boat, sailStateId: 'full-main', track, grid, sampleReference });
    const table = lagTable({
      nominal,
      track,
      boat,
      deckHeightM: 2,
      sampleScenarios: sampleReference,
      sampleReference,
      lateSlotCount: 60,
    });
    const toEnd = { ...held('headsail-only'), fromSlot: 12, toSlot: 60 };
    expect(table.lostNm(40, toEnd)).toBeCloseTo(24, 6);
    expect(table.lostNm(40, { ...toEnd, toSlot: 144 })).toBeCloseTo(24, 6);
  });
});
