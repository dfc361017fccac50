/** Inside this room a reader returns what it read, or the one problem that stopped it. */
import type { Problem } from '../result/index.ts';

/** True for a problem. None of the room's own values has a `remedy`. */
export const isProblem = (read: object): read is Problem => 'remedy' in read;
