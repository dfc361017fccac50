const MM_PER_IN = 25.4;
const PARTS_PER_IN = 16;

/** A length as a tape in inches shows it, to the nearest sixteenth: `59 1/16 in`. The inch is 25.4 mm exactly. */
export function inchesText(lengthMm: number): string {
  const sixteenths = Math.round((lengthMm / MM_PER_IN) * PARTS_PER_IN);
  const whole = Math.floor(sixteenths / PARTS_PER_IN);
  let [above, below] = [sixteenths % PARTS_PER_IN, PARTS_PER_IN];
  while (above > 0 && above % 2 === 0) [above, below] = [above / 2, below / 2];
  if (above === 0) return `${whole} in`;
  return whole === 0 ? `${above}/${below} in` : `${whole} ${above}/${below} in`;
}
