export type { JobOrder, PlanOrders } from './orders.ts';
export type { Passage, Settings } from './passage.ts';
export { lockerLineFile, type PassageFile } from './passage-file.ts';
export { gpxFileOf, parsePassage } from './parse-passage.ts';
export { readPassageFile } from './read-file.ts';
export type { PassageSurroundings } from './read-parts.ts';
export { passageJsonSchema } from './json-schema.ts';
export { readLocker, toLockerFile, type LockerFile } from './read-locker.ts';
