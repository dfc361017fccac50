import { describe, expect, it } from 'vitest';
import { coverageSentences } from '../../../server/presenters/coverage/coverage-words.ts';
import { forecastOf, message, wind } from '../../forecast/sample-fields.ts';
import { covered, passageWith, times } from './covered-way.ts';

const STAYS = { from: { lat: -34.5, lon: 179 }, to: { lat: -34.5, lon: 179.5 } };
const winds = [0, 6, 12, 18, 24].flatMap((stepH) => wind(stepH, 5, 0));
const visibility = (...stepsH: readonly number[]) =>
  stepsH.map((stepH) => message({ kind: 'visibility', stepsH: [stepH], value: 20_000 }));
const sentences = (messages: readonly Uint8Array[], visibilityLeastNm: number | null = null, planHours = 24): string =>
  coverageSentences(
    covered({
      forecast: forecastOf(...messages),
      ...STAYS,
      hours: 24,
      planHours,
      of: passageWith({ visibilityLeastNm }),
    }),
    times,
  ).join(' ');

describe('coverageSentences', () => {
  it('nothing wanting: said, to the end of the plan', () => {
    expect(sentences(winds)).toContain(
      'All it holds is known wherever she will be, to the end of the plan, Thu 28 May 00:00.',
    );
  });

  it('a quantity that ends early: when, how many hours before the plan, and which job waits for it', () => {
    const said = sentences([...winds, ...visibility(0, 6, 12)], 1);
    expect(said).toMatch(
      /Visibility ends Wed 27 May 12:00, 12 h before the plan does: one job has a limit on it, and after it is conditional at best \(.+\)\./,
    );
  });

  it('the same where no job has a limit on it: said too', () => {
    expect(sentences([...winds, ...visibility(0, 6, 12)])).toContain(
      '12 h before the plan does: no job has a limit on it.',
    );
  });

  it('ends after the plan does: no gap', () => {
    expect(sentences([...winds, ...visibility(0, 6, 12)], 1, 12)).toContain('All it holds is known');
  });

  it('begins late, and steps too far apart: from when to when', () => {
    expect(sentences([...winds, ...visibility(6, 12, 18, 24)])).toContain(
      'Visibility begins Wed 27 May 06:00, 6 h after the plan does',
    );
    expect(sentences([...winds, ...visibility(0, 3, 21, 24)])).toContain(
      'Visibility is not known from Wed 27 May 03:00 to Wed 27 May 21:00, 18 h: steps are missing or too far apart',
    );
  });

  it('the wind ends: no work on deck after it', () => {
    const short = [0, 6, 12].flatMap((stepH) => wind(stepH, 5, 0));
    expect(sentences(short)).toContain(
      'Wind at 10 m ends Wed 27 May 12:00, 12 h before the plan does: no work on deck can be planned after it.',
    );
  });

  it('she leaves the area: where the boat is decides, not the hours of the file', () => {
    const forecast = forecastOf(...winds);
    const data = covered({ forecast, from: { lat: -34.5, lon: 179 }, to: { lat: -34.5, lon: 185 }, hours: 24 });
    expect(coverageSentences(data, times)[0]).toBe(
      'She leaves the area of wind at 10 m Wed 27 May 12:00, 12 h before the plan ends: no work on deck can be planned after it.',
    );
  });

  it('the rest of the way: miles left, or when she is there', () => {
    const nm = /without stopping she has (\d+) nm of her track left then/.exec(sentences(winds))?.[1];
    expect(Number(nm)).toBeGreaterThan(500);
  });
});
