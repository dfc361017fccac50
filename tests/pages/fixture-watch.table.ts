import type { Plan, PlanEntry, PlannedJob } from '../../lib/planner/index.ts';

/** What the fixture says of the watchkeeper; invented, in round numbers. */

type EntryFactors = Pick<PlanEntry, 'factors' | 'factorsTogetherRatio'>;

/** Time factors of each job's work, by job id; a job without an entry here takes its plain time. */
export const factorsByJob: Readonly<Record<string, EntryFactors>> = {
  drop: {
    factors: [
      {
        id: 'tired',
        name: 'tiredness',
        ratio: 1.15,
        basis: 'our choice',
        text: 'sleepiness 5.3 of 9 at its start',
      },
    ],
    factorsTogetherRatio: 1.15,
  },
  make: {
    factors: [
      {
        id: 'dark',
        name: 'darkness',
        ratio: 1.3,
        basis: 'our choice',
        text: 'in the dark "Glue" takes 1.3 times as long',
      },
    ],
    factorsTogetherRatio: 1.3,
  },
  stitch: {
    factors: [
      {
        id: 'weather',
        name: 'wind and sea',
        ratio: 1.08,
        basis: 'our choice',
        text: 'wind over the deck and sea between ideal and no-go',
      },
      {
        id: 'cold',
        name: 'cold hands',
        ratio: 1.12,
        basis: 'our choice',
        text: 'hands feel 7 °C, fine work',
      },
      {
        id: 'look-out',
        name: 'looking round',
        ratio: 1.15,
        basis: 'common practice',
        text: 'a look round every 12 min',
      },
      {
        id: 'own-pace',
        name: 'own pace',
        ratio: 0.95,
        basis: 'your own',
        text: 'your pace 0.95',
      },
    ],
    factorsTogetherRatio: 1.32,
  },
  bolt: {
    factors: [
      {
        id: 'heat',
        name: 'heat',
        ratio: 1.04,
        basis: 'published',
        text: 'WBGT about 27 °C, heavy work',
      },
    ],
    factorsTogetherRatio: 1.04,
  },
};

/** By job id; the other jobs wait for the weather only. */
export const sleepFirstByJob: Readonly<Record<string, PlannedJob['sleepFirst']>> = {
  drop: {
    weatherFromUtc: '2026-05-27T22:30Z',
    findings: [
      {
        rule: 'alertness',
        jobId: 'drop',
        observed: 7.6,
        required: 8.15,
        unit: 'points',
        margin: -0.55,
        atUtc: '2026-05-27T22:30Z',
        scenarioShare: null,
        names: [],
      },
    ],
    sleepH: 3,
    text: 'The wind would allow it from Thu 10:30. You would not: alertness 7.6 of the 8.15 that heavy work asks. 3 h of sleep come first.',
  },
};

/** What each sleep is for, in order of time. */
export const buysTexts: readonly string[] = [
  'Without this sleep "Drop the mainsail" (Thu 28 May 13:00) is barred: alertness 7.1 points, 8.15 needed.',
  'Without these 3 sleeps "Stitch the leech, two rows" (Fri 29 May 07:30) is barred: alertness 5.9 points, 7 needed.',
  'Without these 3 sleeps "Stitch the leech, two rows" (Fri 29 May 07:30) is barred: alertness 5.9 points, 7 needed.',
  'Without these 3 sleeps "Stitch the leech, two rows" (Fri 29 May 07:30) is barred: alertness 5.9 points, 7 needed.',
  'Without these 2 sleeps "Patch the spray hood" (Sat 30 May 09:00) takes 7 min longer: sleepiness 6.3 instead of 5.2.',
  'Without these 2 sleeps "Patch the spray hood" (Sat 30 May 09:00) takes 7 min longer: sleepiness 6.3 instead of 5.2.',
  'Rest after the work: in the end alertness 7.7 instead of 6.1, lapses 6.1 instead of 8.4.',
  'Rest after the work: in the end alertness 7.7 instead of 6.1, lapses 6.1 instead of 8.4.',
];

type Watch = Plan['watch'];

export const restRules: Watch['restRules'] = [
  {
    ruleId: 'stcw-rest-24h',
    text: 'STCW: rest in any 24 hours',
    observed: 6.5,
    required: 10,
    unit: 'h',
    met: false,
  },
  {
    ruleId: 'stcw-rest-7d',
    text: 'STCW: rest in any 7 days',
    observed: null,
    required: 77,
    unit: 'h',
    met: null,
  },
  {
    ruleId: 'stcw-longest-period',
    text: 'STCW: longest rest of 24 hours',
    observed: 3,
    required: 6,
    unit: 'h',
    met: false,
  },
  {
    ruleId: 'stcw-interval',
    text: 'STCW: longest time between two rests',
    observed: 13.5,
    required: 14,
    unit: 'h',
    met: true,
  },
];

export const watchNotes: Watch['notes'] = [
  'The rest rules of STCW and MLC bind merchant seafarers, not a private craft, and take for granted that somebody else has the watch. Rest is time off, not sleep.',
  'COLREG Rule 5: every vessel under way keeps a look-out at all times, by sight, by hearing and by all other means that suit. There is no exception for a lone sailor asleep: a plan with sleep is a plan with unwatched minutes.',
];
