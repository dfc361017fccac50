import type { Finding } from '../reasons/index.ts';
import { formatUtc } from '../time/index.ts';
import type { PublishedFinding } from './plan.ts';

/** A finding with its instant as text. */
export const publishedFinding = ({ atEpochMs, ...finding }: Finding): PublishedFinding => ({
  ...finding,
  atUtc: atEpochMs === null ? null : formatUtc(atEpochMs),
});
