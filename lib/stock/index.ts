export type { Locker, LockerItem } from './locker.ts';
