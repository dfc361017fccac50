/** Rounds to so many decimals, for published figures. */
export const rounded = (value: number, decimalCount: number): number => Number(value.toFixed(decimalCount));
