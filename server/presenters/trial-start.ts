/** A form that begins a trial: what it is sent to, and its hidden fields. */
export interface TrialStart {
  readonly action: string;
  readonly fields: readonly (readonly [name: string, value: string])[];
}

interface StartFields {
  /** State of the passage the start was chosen in. */
  readonly version: string;
  readonly jobId: string;
  readonly partIndex: number;
  /** Handling under which the start was looked at. */
  readonly shownHandlingId: string;
  readonly startUtc: string;
}

/** The form that tries a start in the plan. */
export const startFields = ({ version, jobId, partIndex, shownHandlingId, startUtc }: StartFields): TrialStart => ({
  action: '/trial',
  fields: [
    ['version', version],
    ['job', jobId],
    ['part', String(partIndex + 1)],
    ['handling', shownHandlingId],
    ['startUtc', startUtc],
  ],
});
