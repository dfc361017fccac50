export type { Position } from './position.ts';
