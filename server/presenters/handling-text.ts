import type { PlanPicture } from '../../lib/planner/index.ts';
import { lowerFirst } from './word-lines.ts';

/** Name of a handling as it stands inside a sentence; an id without a name stands for itself. */
export const handlingText = ({ handlingNames }: PlanPicture, handling: string): string =>
  lowerFirst(handlingNames[handling] ?? handling);
