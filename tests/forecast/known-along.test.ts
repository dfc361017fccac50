/** What a forecast says of each quantity along a way. The rules are those of the room (its README): nothing is extrapolated. */
import { describe, expect, it } from 'vitest';
import { type Forecast, knownAlong, type QuantityId } from '../../lib/forecast/index.ts';
import { coursePoints, forecastOf, message, wind } from './sample-fields.ts';

/** States of a quantity at places given as step, latitude, longitude. */
const statesOf = (
  forecast: Forecast,
  quantity: QuantityId,
  ...places: readonly (readonly [number, number, number])[]
): readonly string[] =>
  knownAlong(forecast, coursePoints(...places)).find((known) => known.quantity === quantity)?.states ?? [];

const MIDDLE = [-34.5, 179.5] as const;

describe('in time', () => {
  const forecast = forecastOf(
    ...[0, 6, 12].flatMap((stepH) => wind(stepH, 5, 0)),
    message({ kind: 'visibility', stepsH: [0], value: 20_000 }),
    message({ kind: 'visibility', stepsH: [6], value: 20_000 }),
    message({ kind: 'seaHeight', stepsH: [0], value: 1 }),
    message({ kind: 'seaHeight', stepsH: [13], value: 1 }),
  );

  it('each quantity to its own last step, and not a minute longer', () => {
    const at = ([0, 6, 6.01, 12, 12.01] as const).map((stepH) => [stepH, ...MIDDLE] as const);
    expect(statesOf(forecast, 'wind', ...at)).toEqual(['known', 'known', 'known', 'known', 'no-hour']);
    expect(statesOf(forecast, 'visibility', ...at)).toEqual(['known', 'known', 'no-hour', 'no-hour', 'no-hour']);
  });

  it('steps 13 h apart: known at the steps, not between', () => {
    const at = ([0, 6, 13] as const).map((stepH) => [stepH, ...MIDDLE] as const);
    expect(statesOf(forecast, 'seaHeight', ...at)).toEqual(['known', 'no-hour', 'known']);
  });

  it('one state for each point, for each quantity held, no other', () => {
    const known = knownAlong(forecast, coursePoints([0, ...MIDDLE], [1, ...MIDDLE]));
    expect(known.map(({ quantity, states }) => [quantity, states.length])).toEqual([
      ['wind', 2],
      ['seaHeight', 2],
      ['visibility', 2],
    ]);
  });
});

describe('in space', () => {
  const forecast = forecastOf(
    ...wind(0, 5, 0),
    ...wind(6, 5, 0),
    ...[0, 6].map((h) => message({ kind: 'seaHeight', stepsH: [h], value: (_, lon) => (lon > 180 ? Number.NaN : 1) })),
  );

  it('outside of the grid, over the date line too: no place', () => {
    const at = [
      [3, -34.5, 178],
      [3, -34.5, -178],
      [3, -34.5, -177.9],
      [3, -32.9, 179],
    ] as const;
    expect(statesOf(forecast, 'wind', ...at)).toEqual(['known', 'known', 'no-place', 'no-place']);
  });

  it('where all grid points around are missing, as on land: no place', () => {
    expect(statesOf(forecast, 'seaHeight', [3, -34.5, 179.5], [3, -34.5, -178.5])).toEqual(['known', 'no-place']);
  });
});

describe('in an ensemble', () => {
  const members = [1, 2].flatMap((member) => [0, 6].flatMap((stepH) => wind(stepH, 5, 0, { member })));

  it('what one member does not say of the wind is not known', () => {
    const longer = [...members, ...wind(12, 5, 0, { member: 1 })];
    expect(statesOf(forecastOf(...longer), 'wind', [6, ...MIDDLE], [9, ...MIDDLE])).toEqual(['known', 'no-hour']);
  });

  it('a gust the members lack is the control run’s', () => {
    const control = [0, 6].flatMap((stepH) => [
      ...wind(stepH, 5, 0, { isControl: true }),
      message({ kind: 'gust', stepsH: [stepH], value: 9, isControl: true }),
    ]);
    expect(statesOf(forecastOf(...members, ...control), 'gust', [3, ...MIDDLE])).toEqual(['known']);
  });
});
