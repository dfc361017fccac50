import { expect, test } from 'vitest';
import { littleJob, littlePassage, littleStep, littleWeather, withBoatSpeed } from './little-world.ts';
import { planLittle } from './plan-little.ts';

// Our own rule, no source: what stands under a condition is promised neither by the plan nor by what it is compared with.
test('a job whose visibility is unknown: the first fair windows count as few jobs as the plan', () => {
  const eye = littleJob('eye', [littleStep('eye', 60, { visibilityLeastNm: 2 })]);
  const plain = littleJob('plain', [littleStep('plain', 60)]);
  const passage = withBoatSpeed(littlePassage([eye, plain]), 0);
  const { plan } = planLittle(
    passage,
    littleWeather([{ windKn: () => 8, seaHeightM: () => 0.5, visibilityNm: () => Number.NaN }], 40),
  );
  expect(plan.jobs.map(({ status }) => status)).toEqual(['conditional', 'planned']);
  expect(plan.firstFair?.plannedJobIds).toEqual(['plain']);
});
