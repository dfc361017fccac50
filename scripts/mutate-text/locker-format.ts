import { lockerCsv, readLockerCsv } from '../../lib/stock/index.ts';
import { toLockerFile } from '../../lib/passage/index.ts';
import { accepted, type Attempt, differenceOf, refused, unfinishedNumber } from './attempt.ts';
import { decoded, type TextFormat } from './format.ts';
import { littlePassage } from './little-world.ts';
import { tableDamages } from './table-damages.ts';

const GIANT_ONE_IN = 60;
const WITH_SEMICOLONS = `\uFEFFitem;amount;unit;keep;place\r\nwaxed twine;60,5;m;15;chart table\r\n"needles; curved";6;pieces;2;"tin ""B"""\r\n`;

export const lockerFormat = (): TextFormat => ({
  samples: [
    { name: 'own table', text: lockerCsv(littlePassage().locker).replaceAll('\r\n', '\n') },
    { name: 'table of a spreadsheet', text: WITH_SEMICOLONS },
  ],
  own: tableDamages(GIANT_ONE_IN),
  attempt: lockerAttempt,
});

function lockerAttempt(octets: Uint8Array): Attempt {
  const text = decoded(octets);
  const read = readLockerCsv(text, 'mutant.csv');
  if (!read.ok) return refused(read.problems, text);
  const written = lockerCsv(read.value);
  const again = readLockerCsv(written, 'again.csv');
  if (!again.ok) return accepted(`written again it is refused: ${again.problems[0].where} ${again.problems[0].what}`);
  toLockerFile(read.value);
  return accepted(differenceOf(read.value, again.value) ?? unfinishedNumber(read.value) ?? formulaFault(written));
}

/** A cell of the written table a spreadsheet would run (CWE-1236); numbers with a sign are none. */
function formulaFault(table: string): string | null {
  const cell = /(?:^|,)"?(?:[=@]|[+-](?!\d+(?:\.\d+)?(?:,|\r|$)))/m.exec(table);
  return cell === null ? null : `a formula is written: ${table.slice(cell.index, cell.index + 60)}`;
}
