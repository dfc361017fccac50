import type { Notice } from './notices.ts';
import { timeTexts, epochOf } from './time-texts.ts';
import type { Trial } from './trial-standing.ts';

/** That a start is being tried, above pages of the plan it is tried in; none where nothing is. */
export function trialNotices(trial: Trial | null): readonly Notice[] {
  if (trial === null) return [];
  const { tried, before, state } = trial;
  const when = timeTexts(before.picture.shipTimeOffsetMin).dayTime(epochOf(tried.startUtc));
  const isPlanning = state.kind === 'planning';
  return [
    {
      kind: 'trial',
      title: isPlanning ? 'A start is being tried' : 'A start was tried',
      text: `“${tried.jobName}” from ${when}. ${isPlanning ? 'The plan below is left as it is.' : 'The plan below is not the trial.'}`,
      problems: [],
      action: null,
      link: { href: '/trial', text: 'See the trial' },
    },
  ];
}
