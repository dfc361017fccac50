/**
 * Proves each row of the support table, and that the room's README holds the table.
 *
 * SLATCH_UPDATE=1 writes the table into the README.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { SUPPORT_ROWS } from './support-rows.ts';

const README = 'lib/grib/README.md';
const BEGIN = '<!-- support table: tests/grib/support-rows.ts -->';
const END = '<!-- end of the support table -->';

describe('support', () => {
  it.each(SUPPORT_ROWS)('$what: $note', ({ proof }) => {
    expect(proof()).toEqual([]);
  });
});

const cells = SUPPORT_ROWS.map(({ what, note, provedBy }) => [what, note, provedBy]);
const table = [['what', 'how far', 'proved by'], ['---', '---', '---'], ...cells].map(
  (row) => `| ${row.join(' | ')} |`,
);

/** Cells of a table, without the spaces a formatter puts between them. */
const cellsIn = (markdown: string): string[][] =>
  markdown
    .split('\n')
    .filter((line) => line.startsWith('|') && !line.startsWith('| --'))
    .map((line) =>
      line
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim()),
    );

describe('the README of the room', () => {
  it('holds the table as it is proved', () => {
    const text = readFileSync(README, 'utf8');
    const [before = '', rest = ''] = text.split(BEGIN);
    const [held = '', after = ''] = rest.split(END);
    const isWritten = process.env['SLATCH_UPDATE'] === '1';
    if (isWritten) writeFileSync(README, `${before}${BEGIN}\n\n${table.join('\n')}\n\n${END}${after}`);
    expect(isWritten ? cellsIn(table.join('\n')) : cellsIn(held)).toEqual([['what', 'how far', 'proved by'], ...cells]);
  });
});
