import { describe, expect, it } from 'vitest';
import { planIn, viewIn } from '../../../server/presenters/units/plan-texts.ts';
import { PLAIN_UNITS } from '../../../server/presenters/units/shown-units.ts';
import { plan } from '../../pages/fixture-plan.ts';
import { view } from '../../pages/fixture-windows.ts';
import { BEAUFORT, FEET, SI } from './every-unit.ts';
import { convertedCount, mixedSentences } from './mixed-units.ts';

const [first] = plan.jobs;
if (first === undefined) throw new Error('the plan of the test has no job');
const saying = (why: string): typeof plan => ({ ...plan, jobs: [{ ...first, why, goCheck: [] }] });

describe('a plan in other units', () => {
  it('kn, m and °C: the very same plan', () => {
    expect(planIn(plan, PLAIN_UNITS)).toBe(plan);
    expect(viewIn(view, PLAIN_UNITS)).toBe(view);
  });

  it('its sentences are converted, its figures are not', () => {
    const shown = planIn(saying('What binds is sea: 1.6 m expected at the worst moment, 3.5 m allowed.'), FEET);
    expect(shown.jobs[0]?.why).toBe('What binds is sea: 5.2 ft expected at the worst moment, 11.4 ft allowed.');
    expect(shown.jobs[0]?.bindingLimit).toEqual(first.bindingLimit);
    expect(shown.entries.map(({ deckWindKn }) => deckWindKn)).toEqual(plan.entries.map(({ deckWindKn }) => deckWindKn));
  });

  it('a sentence with a figure without its unit would be seen as mixed', () => {
    const bare = saying('It stands 28 kn over the deck and gets 19; "Sew 5 m" stands only 16 kn.');
    expect(mixedSentences(bare, SI)).toHaveLength(1);
    expect(mixedSentences(bare, BEAUFORT)).toHaveLength(1);
    const whole = saying('It stands 28 kn over the deck and gets 19 kn; "Sew 5 m" stands only 16 kn.');
    expect(mixedSentences(whole, SI)).toEqual([]);
    expect(mixedSentences(whole, BEAUFORT)).toEqual([]);
    expect(convertedCount(whole, SI)).toBeGreaterThan(0);
  });
});
