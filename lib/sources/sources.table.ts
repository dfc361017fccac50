import type { Source } from './source.ts';

/** The bibliography: one entry a line, in alphabetical order of its id. */
export const sources = {} as const satisfies Readonly<Record<string, Source>>;
