import type { Problem } from '../../result/index.ts';
import { isBaseTime } from '../frames/base-time.ts';

/** The problem of instants [epoch ms] that no message can carry; none when all can be sent. */
export function sendableTimeProblems(instants: readonly number[], where: string): readonly Problem[] {
  const bad = instants.filter((epochMs) => !isBaseTime(epochMs));
  if (bad.length === 0) return [];
  return [
    {
      code: 'message.time',
      where,
      what: `${bad.length} of its times cannot be sent.`,
      expected: 'instants from 2000 to 2099',
      remedy: 'Correct them.',
    },
  ];
}
