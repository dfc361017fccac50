/** What Slatch reads from a forecast. */
export type QuantityId =
  | 'wind'
  | 'gust'
  | 'seaHeight'
  | 'wavePeriod'
  | 'waveDirection'
  | 'pressure'
  | 'rain'
  | 'air'
  | 'humidity'
  | 'seaWater'
  | 'cape'
  | 'visibility'
  | 'cloud'
  | 'current';

/** A quantity's name and unit; values of a pair are components toward east and north. */
export interface Quantity {
  readonly id: QuantityId;
  readonly name: string;
  readonly unit: string;
  /** `pair`: u and v in `unit`, or (wave direction) the unit vector pointing where waves come from. */
  readonly shape: 'single' | 'pair';
  /** Without it a plan cannot be made, or is conditional. */
  readonly isEssential: boolean;
}

/** Quantities in the order in which they are listed and read: humidity needs the air before it. */
export const QUANTITIES: readonly Quantity[] = [
  { id: 'wind', name: 'wind at 10 m', unit: 'kn', shape: 'pair', isEssential: true },
  { id: 'gust', name: 'gust', unit: 'kn', shape: 'single', isEssential: true },
  { id: 'seaHeight', name: 'significant wave height', unit: 'm', shape: 'single', isEssential: true },
  { id: 'wavePeriod', name: 'wave period', unit: 's', shape: 'single', isEssential: false },
  { id: 'waveDirection', name: 'wave direction', unit: '°', shape: 'pair', isEssential: false },
  { id: 'pressure', name: 'pressure at sea level', unit: 'hPa', shape: 'single', isEssential: false },
  { id: 'rain', name: 'rain', unit: 'mm/h', shape: 'single', isEssential: false },
  { id: 'air', name: 'air temperature at 2 m', unit: '°C', shape: 'single', isEssential: false },
  { id: 'humidity', name: 'relative humidity at 2 m', unit: '%', shape: 'single', isEssential: false },
  { id: 'seaWater', name: 'sea temperature', unit: '°C', shape: 'single', isEssential: false },
  { id: 'cape', name: 'CAPE', unit: 'J/kg', shape: 'single', isEssential: false },
  { id: 'visibility', name: 'visibility', unit: 'nm', shape: 'single', isEssential: false },
  { id: 'cloud', name: 'cloud', unit: 'share of the sky', shape: 'single', isEssential: false },
  { id: 'current', name: 'current', unit: 'kn', shape: 'pair', isEssential: false },
];

/** The quantity of an id. */
export function quantityOf(id: QuantityId): Quantity {
  const found = QUANTITIES.find((quantity) => quantity.id === id);
  if (found === undefined) throw new Error(`no quantity ${id}`);
  return found;
}
