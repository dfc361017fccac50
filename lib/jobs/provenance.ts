import type { Job } from './job.ts';

/** Words for figures without a published source. */
export const COMMON_PRACTICE = 'common practice, no source';
export const OUR_DEFAULT = 'our default';
export const OWN_FIGURE = 'own figure';

/**
 * Whose figure a key of a step is: the entry for the step and key, else for the key in every step, else for the step,
 * else for the whole job.
 *
 * @returns a source id or words; null: nobody's, which no library job may have
 */
export const provenanceOf = ({ provenance }: Pick<Job, 'provenance'>, stepId: string, key: string): string | null =>
  provenance[`${stepId}.${key}`] ?? provenance[`*.${key}`] ?? provenance[stepId] ?? provenance['*'] ?? null;
