export type { Source } from './source.ts';
export type { SourceId } from './source-id.ts';
export { sources } from './sources.table.ts';
