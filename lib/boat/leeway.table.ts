/**
 * Leeway of drifting sailing craft, shares of the 10 m wind: downwind, and across it to the right and left.
 *
 * US Coast Guard leeway object list: sources.ALLEN_PLOURDE_1999.
 */
export interface LeewayRow {
  readonly id: string;
  readonly name: string;
  readonly downwindRatio: number;
  readonly crossRightRatio: number;
  readonly crossLeftRatio: number;
}

export const LEEWAY_ROWS: readonly LeewayRow[] = [
  {
    id: 'bare-masted-hove-to',
    name: 'SAILBOAT-6b mono-hull bare-masted, rudder hove-to',
    downwindRatio: 0.0269,
    crossRightRatio: 0.0281,
    crossLeftRatio: 0.0401,
  },
  {
    id: 'bare-masted',
    name: 'SAILBOAT-5 mono-hull bare-masted average',
    downwindRatio: 0.0523,
    crossRightRatio: 0.0589,
    crossLeftRatio: 0.0609,
  },
  {
    id: 'fin-keel',
    name: 'SAILBOAT-7 fin keel shallow draft',
    downwindRatio: 0.0267,
    crossRightRatio: 0.0298,
    crossLeftRatio: 0.0298,
  },
];
