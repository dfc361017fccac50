import type { ShownUnits } from '../../../server/presenters/units/shown-units.ts';

/** Every choice of units there is. */
export const EVERY_UNITS: readonly ShownUnits[] = (['kn', 'm/s', 'Bft'] as const).flatMap((wind) =>
  (['m', 'ft'] as const).flatMap((height) =>
    (['°C', '°F'] as const).map((temperature) => ({ wind, height, temperature })),
  ),
);

export const SI: ShownUnits = { wind: 'm/s', height: 'm', temperature: '°C' };
export const BEAUFORT: ShownUnits = { wind: 'Bft', height: 'm', temperature: '°C' };
export const FEET: ShownUnits = { wind: 'kn', height: 'ft', temperature: '°F' };
