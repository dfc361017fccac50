import { describe, expect, test } from 'vitest';
import type { Passage } from '../../lib/passage/index.ts';
import type { PaceByWork } from '../../lib/person/index.ts';
import type { LittleWeather } from './little-world.ts';
import { littleJob, littlePassage, littleStep, littleWeather, withBoatSpeed } from './little-world.ts';
import { planLittle } from './plan-little.ts';

const calm: LittleWeather = { windKn: () => 8, seaHeightM: () => 0.5 };
const whole = { safePointAfter: false };
const haul = { ...littleStep('haul', 60), ...whole };
const needle = { ...littleStep('needle', 60), hands: 'fine' as const };
const jobs = [littleJob('both', [haul, needle], { group: 'sail-repair' })];
const passage = (paceRatio: number, paceByWork?: PaceByWork): Passage => {
  const little = withBoatSpeed(littlePassage(jobs, { deckHeightM: 10 }), 0);
  return {
    ...little,
    watchkeeper: { ...little.watchkeeper, paceRatio, ...(paceByWork === undefined ? {} : { paceByWork }) },
  };
};
const entryOf = (of: Passage) => {
  const { plan } = planLittle(of, littleWeather([calm], 24));
  const entry = plan.entries.find(({ kind }) => kind === 'work');
  if (entry === undefined) throw new Error('nothing is planned');
  return {
    lengthMin: (Date.parse(entry.endUtc) - Date.parse(entry.startUtc)) / 60_000,
    factor: entry.factors.find(({ id }) => id === 'own-pace'),
  };
};

describe('own pace by kind of work', () => {
  test('lengthens the steps of its kind, the others go at the usual pace: 60 × 1 + 60 × 1.5', () => {
    const { lengthMin, factor } = entryOf(passage(1, { sewing: { ratio: 1.5, sessionCount: 5 } }));
    expect(lengthMin).toBe(150);
    expect(factor?.ratio).toBeCloseTo(1.25, 6);
    expect(factor?.text).toBe('your pace 1; your factor 1.5 (n = 5), sewing'.replace('1;', '1.0;'));
    expect(factor?.basis).toBe('your own');
  });

  test('takes the place of the usual pace, it is not put on top of it: 60 × 1.2 + 60 × 1.5', () => {
    expect(entryOf(passage(1.2, { sewing: { ratio: 1.5, sessionCount: 5 } })).lengthMin).toBe(170); // 162, in slots
    expect(entryOf(passage(1.2)).lengthMin).toBe(150); // 144, in slots
  });

  test('of work that is not there changes nothing', () => {
    expect(entryOf(passage(1, { aloft: { ratio: 3, sessionCount: 9 } }))).toEqual(entryOf(passage(1)));
  });

  test('is told for each kind', () => {
    const paces = { hauling: { ratio: 0.9, sessionCount: 2 }, sewing: { ratio: 1.3, sessionCount: 4 } };
    expect(entryOf(passage(1, paces)).factor?.text).toBe(
      'your factor 0.9 (n = 2), hauling and handling sails; your factor 1.3 (n = 4), sewing',
    );
  });
});
