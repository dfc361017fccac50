export type { LegKind, Track, Waypoint } from './track.ts';
