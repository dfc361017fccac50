/** Figures a formula can be asked with. A wrong one is a mistake of ours; a NaN would pass a comparison unseen. */
type Figures = Readonly<Record<string, number>>;

function requireAll(figures: Figures, what: string, holds: (value: number) => boolean): void {
  for (const [name, value] of Object.entries(figures))
    if (!holds(value)) throw new Error(`${name} is ${value}, ${what} was expected`);
}

/** Throws unless all are numbers, not NaN and not infinite. */
export const requireFinite = (figures: Figures): void => requireAll(figures, 'a number', Number.isFinite);

/** Throws unless all are numbers of 0 or more. */
export const requireNotNegative = (figures: Figures): void =>
  requireAll(figures, 'a number of 0 or more', (value) => Number.isFinite(value) && value >= 0);

/** Throws unless all are numbers above 0. */
export const requirePositive = (figures: Figures): void =>
  requireAll(figures, 'a number above 0', (value) => Number.isFinite(value) && value > 0);

/** Throws unless all are ratios from 0 to 1. */
export const requireRatio = (figures: Figures): void =>
  requireAll(figures, 'a ratio from 0 to 1', (value) => value >= 0 && value <= 1);
