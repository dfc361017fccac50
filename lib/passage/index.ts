export type { Passage, Settings } from './passage.ts';
