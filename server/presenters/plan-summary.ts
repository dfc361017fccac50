import { of100, plusMinus } from './amount-texts.ts';
import { jobRows } from './job-rows.ts';
import type { PassageView } from './plan-standing.ts';
import { timeTexts } from './time-texts.ts';

/** The plan in a few lines for a terminal: ship's time, chances in 100, what binds. */
export function planSummary({ plan, picture }: PassageView): string {
  const times = timeTexts(picture.shipTimeOffsetMin);
  const { allDoneProbability, allDoneProbabilitySd } = plan.totals;
  const chance =
    allDoneProbability === null
      ? 'No job is planned.'
      : `All planned jobs inside their limits: ${of100(allDoneProbability)} of 100 ${plusMinus(allDoneProbabilitySd)}`.trim();
  const lines = jobRows(plan, null, times).map(({ start, name, of100: chances, room, binds, note, status }) =>
    status === 'planned' || status === 'conditional'
      ? `  ${start.padEnd(12)}${name}: ${chances} of 100; ${binds}: ${room} to spare${note === '' ? '' : `; ${note}`}`
      : `  ${start.padEnd(12)}${name}`,
  );
  const name = plan.planNumber === null ? plan.passageName : `Plan ${plan.planNumber}: ${plan.passageName}`;
  return [`${name}, ship’s time`, ...lines, chance, 'Advice, not permission: the skipper decides.'].join('\n');
}
