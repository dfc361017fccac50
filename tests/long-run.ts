/** Whether the whole of every long check is asked for (`SLATCH_LONG_TESTS=1`); else a part that ends within minutes. */
export const IS_LONG_RUN = process.env['SLATCH_LONG_TESTS'] === '1';

/** How often something is tried. */
export const longOrShort = (inLongRun: number, inShortRun: number): number => (IS_LONG_RUN ? inLongRun : inShortRun);
