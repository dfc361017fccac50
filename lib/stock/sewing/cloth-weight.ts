/** Weight of sailcloth, as the two trades state it. */

const OUNCE_G = 28.349523125;
const INCH_M = 0.0254;

/** A sailmaker's ounce is the ounces of a piece of 28.5 by 36 inches (common practice, no source); 42.8 g/m². */
const G_PER_M2_PER_OUNCE = OUNCE_G / (28.5 * INCH_M * 36 * INCH_M);

/** Sailmaker's ounces to g/m². */
export const gPerM2FromSailmakersOunces = (value: number): number => value * G_PER_M2_PER_OUNCE;

/** g/m² to sailmaker's ounces. */
export const sailmakersOuncesFromGPerM2 = (value: number): number => value / G_PER_M2_PER_OUNCE;
