/** What is written for each passage, behind its name. */
export const FILE_ENDINGS = {
  /** The plan, the octets of `slatch plan --json`. */
  plan: '.plan.json',
  /** What it was made of and what it took. */
  record: '.made.json',
} as const;
