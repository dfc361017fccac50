export type { Watchkeeper } from './watchkeeper.ts';
