import type { Gate, GateState } from '../person/index.ts';
import { gateFindings } from '../person/index.ts';
import type { Finding } from './finding.ts';

/**
 * Gates of the person that do not open at an instant of the work, in the fixed order of `gateFindings`; empty: fit for it.
 *
 * Sleep inertia is one of them; sleepiness of KSS 8 and above is the alertness gate of work below.
 */
export const personFindings = (
  jobId: string,
  at: { readonly state: GateState; readonly gate: Gate; readonly epochMs: number },
): Finding[] =>
  gateFindings(at.state, at.gate).map(({ rule, observed, required, unit, margin }) => ({
    rule,
    jobId,
    observed,
    required,
    unit,
    margin,
    atEpochMs: at.epochMs,
    scenarioShare: null,
    names: [],
  }));
