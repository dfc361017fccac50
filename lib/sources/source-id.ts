import type { sources } from './sources.table.ts';

/** Id of an entry of the bibliography. */
export type SourceId = keyof typeof sources;
