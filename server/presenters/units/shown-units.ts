/** Units a reader sees figures in. Forms, files, messages, deck sheets and the core stay in kn, m and °C. */
export interface ShownUnits {
  /** `Bft`: the force of the scale beside the knots, for a class hides how much room is left. */
  readonly wind: 'kn' | 'm/s' | 'Bft';
  /** Of the sea. Lengths of sail, cloth and rope stay in metres. */
  readonly height: 'm' | 'ft';
  readonly temperature: '°C' | '°F';
}

/** What forms, files and the core hold; shown until the reader chooses others. */
export const PLAIN_UNITS: ShownUnits = { wind: 'kn', height: 'm', temperature: '°C' };

export const isPlain = ({ wind, height, temperature }: ShownUnits): boolean =>
  wind === 'kn' && height === 'm' && temperature === '°C';

/** How each unit is written in an address, a form and the cookie. */
const windCodes = { kn: 'kn', mps: 'm/s', bft: 'Bft' } as const;
const heightCodes = { m: 'm', ft: 'ft' } as const;
const temperatureCodes = { c: '°C', f: '°F' } as const;

export interface UnitCodes {
  readonly wind: string;
  readonly height: string;
  readonly temperature: string;
}

const isKeyOf = <K extends string>(codes: Readonly<Record<K, string>>, code: string): code is K =>
  Object.hasOwn(codes, code);

/** The units named by their codes; null: one of them is no unit. */
export function unitsOfCodes({ wind, height, temperature }: UnitCodes): ShownUnits | null {
  if (!isKeyOf(windCodes, wind) || !isKeyOf(heightCodes, height)) return null;
  if (!isKeyOf(temperatureCodes, temperature)) return null;
  return { wind: windCodes[wind], height: heightCodes[height], temperature: temperatureCodes[temperature] };
}

const codeOf = (codes: Readonly<Record<string, string>>, unit: string): string =>
  Object.keys(codes).find((code) => codes[code] === unit) ?? '';

export const codesOfUnits = ({ wind, height, temperature }: ShownUnits): UnitCodes => ({
  wind: codeOf(windCodes, wind),
  height: codeOf(heightCodes, height),
  temperature: codeOf(temperatureCodes, temperature),
});
