import { formatSpeedTableCsv, parseSpeedTableCsv } from '../../lib/boat/index.ts';
import { accepted, type Attempt, differenceOf, refused, unfinishedNumber } from './attempt.ts';
import { decoded, type TextFormat } from './format.ts';
import { tableDamages } from './table-damages.ts';

const GIANT_ONE_IN = 60;
const ROWS = [40, 90, 140, 180].flatMap((twaDeg) =>
  [6, 14.5, 25].map((twsKn) => ({ twaDeg, twsKn, boatSpeedKn: 5.25 })),
);

export const speedFormat = (): TextFormat => ({
  samples: [{ name: 'speed table', text: formatSpeedTableCsv(ROWS) }],
  own: tableDamages(GIANT_ONE_IN),
  attempt: speedAttempt,
});

function speedAttempt(octets: Uint8Array): Attempt {
  const text = decoded(octets);
  const read = parseSpeedTableCsv(text, 'mutant.csv');
  if (!read.ok) return refused(read.problems, text);
  const again = parseSpeedTableCsv(formatSpeedTableCsv(read.value), 'again.csv');
  if (!again.ok) return accepted(`written again it is refused: ${again.problems[0].what}`);
  return accepted(differenceOf(read.value, again.value) ?? unfinishedNumber(read.value));
}
