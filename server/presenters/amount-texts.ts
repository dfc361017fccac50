/** Rounding happens here, and always to the unfriendly side where a limit is meant. */

/** Chances in 100; 100 and 0 only where it is certain. */
export function of100(probability: number): number {
  if (probability >= 1) return 100;
  if (probability <= 0) return 0;
  return Math.min(99, Math.max(1, Math.round(probability * 100)));
}

/** `± 4`, one standard error in 100, never less than 1. */
export const plusMinus = (probabilitySd: number | null): string =>
  probabilitySd === null || probabilitySd === 0 ? '' : `± ${Math.max(1, Math.ceil(probabilitySd * 100 - 1e-9))}`;

const decimalsOf = (unit: string): number => {
  if (unit === 'ratio') return 3;
  return unit === 'min' ? 0 : 1;
};

const trimmed = (value: number, decimals: number): string => {
  const text = value.toFixed(decimals);
  const bare = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return bare === '-0' ? '0' : bare;
};

const withUnit = (text: string, unit: string): string => (unit === 'ratio' ? text : `${text} ${unit}`);

/** `14.9 kn`, to the nearest shown figure. */
export const amountText = (value: number, unit: string): string => withUnit(trimmed(value, decimalsOf(unit)), unit);

/** As amountText without the unit. */
export const figureText = (value: number, unit: string): string => trimmed(value, decimalsOf(unit));

/** Room to a limit, rounded towards the limit: 4.19 kn of room is `4.1 kn`. */
export function roomText(room: number, unit: string): string {
  const scale = 10 ** decimalsOf(unit);
  return withUnit(trimmed(Math.floor(room * scale + 1e-6) / scale, decimalsOf(unit)), unit);
}

/** Whole figure with its unit: `38 nm`; below 10 one decimal. */
export const aboutText = (value: number, unit: string): string =>
  withUnit(Math.abs(value) < 10 ? trimmed(value, 1) : value.toFixed(0), unit);
