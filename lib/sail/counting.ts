/** Things counted from both ends. */
export interface Counted {
  /** From the end where counting begins by convention. */
  readonly itsNumber: number;
  /** From the other end. */
  readonly otherNumber: number;
  readonly ofCount: number;
}

/** Both numbers of the thing that is `itsNumber` of `ofCount`; counting twice from the other end gives it back. */
export const counted = (itsNumber: number, ofCount: number): Counted => ({
  itsNumber,
  otherNumber: ofCount + 1 - itsNumber,
  ofCount,
});

/** 1st, 2nd, 3rd, 4th, 11th, 21st. */
export function ordinalText(ordinalNumber: number): string {
  const tens = ordinalNumber % 100;
  if (tens >= 11 && tens <= 13) return `${ordinalNumber}th`;
  return `${ordinalNumber}${['th', 'st', 'nd', 'rd'][ordinalNumber % 10] ?? 'th'}`;
}
