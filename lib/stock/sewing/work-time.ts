/** Minutes of work whose pace is known as an amount per hour. */

/** Three-point estimate of minutes, in rising order. */
export interface MinutesEstimate {
  readonly leastMin: number;
  readonly likelyMin: number;
  readonly mostMin: number;
}

/** An amount of work and how much of it is done in an hour. */
export interface RateWork {
  /** In `unit`; 0 or more. */
  readonly amount: number;
  /** What is counted: `m`, `pieces`, `litres` …; the rates are this per hour. Not used in the arithmetic. */
  readonly unit?: string;
  /** Rates above 0; slow <= likely <= fast. */
  readonly slowPerH: number;
  readonly likelyPerH: number;
  readonly fastPerH: number;
  /** Getting ready, the same at every pace. */
  readonly setUpMin: number;
}

/**
 * Minutes of any work with a rate: set-up + 60 × amount / rate; the fast rate gives the least.
 *
 * Throws for a rate that is not above 0 or rates out of order, a negative amount or set-up: files are checked when read.
 */
export function rateMinutes(work: RateWork): MinutesEstimate {
  const { amount, slowPerH, likelyPerH, fastPerH, setUpMin } = work;
  if (!(amount >= 0 && setUpMin >= 0)) throw new Error('an amount or a set-up below nothing');
  if (!(slowPerH > 0 && slowPerH <= likelyPerH && likelyPerH <= fastPerH))
    throw new Error(`rates must rise from above 0: ${slowPerH}, ${likelyPerH}, ${fastPerH}`);
  return {
    leastMin: setUpMin + (60 * amount) / fastPerH,
    likelyMin: setUpMin + (60 * amount) / likelyPerH,
    mostMin: setUpMin + (60 * amount) / slowPerH,
  };
}
