import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  CREW_MOTION,
  INTERRUPTION_RISKS,
  interruptionRisk,
  interruptionsPerMin,
  MOTION_CRITERIA,
  motionDoseMps15,
  sicknessShare,
} from '../../lib/person/index.ts';
import { golden } from './golden.ts';

interface Golden {
  readonly tolerance: { readonly value: number };
  readonly criteria: readonly (readonly [string, number, number, number])[];
  readonly crew: {
    readonly motion_sickness: string;
    readonly mii_per_min: number;
    readonly roll_rms_deg: number;
    readonly pitch_rms_deg: number;
    readonly vert_acc_rms_g: number;
    readonly lat_acc_rms_g: number;
  };
  readonly riskLevels: Readonly<Record<string, number>>;
  readonly interruptions: readonly { sigma: number; Tz: number; mu: number; expect: number }[];
  readonly dose: readonly { a: number; T_s: number; msdv: number; pct: number }[];
}

const file = golden('motion') as Golden;
const SEED = { seed: 11, numRuns: 200 };

const expectNear = (actual: number, wanted: number): void =>
  expect(Math.abs(actual - wanted)).toBeLessThan(file.tolerance.value);

describe('interruptionsPerMin (Graham 1990, from memory)', () => {
  it.each(file.interruptions)(
    '$sigma m/s², every $Tz s, μ $mu: $expect a minute',
    ({ sigma, Tz, mu, expect: wanted }) => {
      expect(mu).toBe(0.25);
      expectNear(interruptionsPerMin({ alongDeckRmsMps2: sigma, periodS: Tz, direction: 'sideways' }), wanted);
    },
  );

  it('fore and aft, μ 0.17: more often than sideways', () => {
    const motion = { alongDeckRmsMps2: 1, periodS: 4 };
    const wanted = 30 * Math.exp(-((0.17 * 9.81) ** 2) / 2);
    expectNear(interruptionsPerMin({ ...motion, direction: 'fore-and-aft' }), wanted);
    expect(wanted).toBeGreaterThan(interruptionsPerMin({ ...motion, direction: 'sideways' }));
  });

  it('no motion: none; no period: a mistake of ours', () => {
    expect(interruptionsPerMin({ alongDeckRmsMps2: 0, periodS: 6, direction: 'sideways' })).toBe(0);
    expect(() => interruptionsPerMin({ alongDeckRmsMps2: 1, periodS: 0, direction: 'sideways' })).toThrow('periodS');
    expect(() => interruptionsPerMin({ alongDeckRmsMps2: Number.NaN, periodS: 6, direction: 'sideways' })).toThrow(
      'alongDeckRmsMps2',
    );
  });

  it('any motion: a number, no more than two a period, and never fewer with more motion', () => {
    const someMps2 = fc.double({ min: 0, max: 10, noNaN: true });
    fc.assert(
      fc.property(someMps2, someMps2, fc.double({ min: 1, max: 20, noNaN: true }), (a, b, periodS) => {
        const [less = Number.NaN, more = Number.NaN] = [Math.min(a, b), Math.max(a, b)].map((alongDeckRmsMps2) =>
          interruptionsPerMin({ alongDeckRmsMps2, periodS, direction: 'sideways' }),
        );
        expect(less).toBeGreaterThanOrEqual(0);
        expect(more).toBeGreaterThanOrEqual(less);
        expect(more).toBeLessThanOrEqual(120 / periodS);
      }),
      SEED,
    );
  });
});

describe('interruptionRisk (Graham 1990, from memory)', () => {
  it.each(Object.entries(file.riskLevels))('%s: from %d a minute on', (risk, fromPerMin) => {
    expect(interruptionRisk(fromPerMin)).toBe(risk);
    expect(interruptionRisk(fromPerMin - 0.01)).not.toBe(risk);
  });

  it('rarer than the lowest: none; no level but these', () => {
    expect(interruptionRisk(0.09)).toBeNull();
    expect(INTERRUPTION_RISKS.map(({ risk }) => risk)).toEqual(Object.keys(file.riskLevels));
    expect(() => interruptionRisk(Number.NaN)).toThrow('perMin');
  });
});

describe('motionDoseMps15 and sicknessShare (ISO 2631-1, from memory)', () => {
  it.each(file.dose)('$a m/s² for $T_s s: $msdv m/s^1.5, $pct %', ({ a, T_s, msdv, pct }) => {
    const doseMps15 = motionDoseMps15({ verticalRmsMps2: a, exposureMin: T_s / 60 });
    expectNear(doseMps15, msdv);
    expectNear(100 * sicknessShare(doseMps15), pct);
  });

  it('a dose beyond the line: no more than everybody', () => {
    expect(sicknessShare(1000)).toBe(1);
    expect(sicknessShare(0)).toBe(0);
    expect(() => sicknessShare(-1)).toThrow('doseMps15');
    expect(() => motionDoseMps15({ verticalRmsMps2: 1, exposureMin: Number.NaN })).toThrow('exposureMin');
  });
});

describe('criteria (Nordforsk 1987 and STANAG 4154, from memory)', () => {
  const words = ['light manual work', 'heavy manual work', 'intellectual work', 'transit passengers', 'cruise liner'];

  it('every row: as commonly cited', () => {
    expect(
      MOTION_CRITERIA.map((row, index) => [words[index], row.verticalRmsG, row.lateralRmsG, row.rollRmsDeg]),
    ).toEqual(file.criteria);
  });

  it('the crew of a ship: as commonly cited', () => {
    expect(`${100 * CREW_MOTION.sick.value}% of crew in ${CREW_MOTION.sickWithin.value} h`).toBe(
      file.crew.motion_sickness,
    );
    expect([CREW_MOTION.interruptions.value, CREW_MOTION.rollRms.value, CREW_MOTION.pitchRms.value]).toEqual([
      file.crew.mii_per_min,
      file.crew.roll_rms_deg,
      file.crew.pitch_rms_deg,
    ]);
    expect([CREW_MOTION.verticalRms.value, CREW_MOTION.lateralRms.value]).toEqual([
      file.crew.vert_acc_rms_g,
      file.crew.lat_acc_rms_g,
    ]);
  });
});
