import { oneLine } from '../export/plain-text.ts';
import { columnCount, wrapped } from '../export/text-columns.ts';
import type { DeckSheet, NumberRow, SheetFact, SheetRow } from './sheet.ts';

/** Width of a terminal, and of a sheet in a type that can be read on deck. */
const WIDTH_COUNT = 80;
const TERM_COUNT = 22;
const CLOCK_COUNT = 11;

/** The deck sheet as plain text of 80 columns, with boxes to tick and places to write in. */
export function deckSheetText(sheet: DeckSheet): string {
  const lines = [
    ...indented(`DECK SHEET: ${sheet.title}`, ''),
    ...(sheet.standing === null ? [] : indented(`!! ${sheet.standing}`, '', '   ')),
    ...(sheet.startWarning === null ? [] : indented(`! ${sheet.startWarning}`, '', '  ')),
    ...sheet.head.flatMap(factLines),
    ...section('WINDOW', [
      ...sheet.window.flatMap(factLines),
      ...(sheet.why === null ? [] : indented(`Why: ${sheet.why}`, '')),
    ]),
    ...section(
      'NUMBERS: strictest of steps and handling; wind at the instrument (on deck)',
      numberLines(sheet.numbers),
    ),
    ...section(
      'GO: start only with every box ticked',
      sheet.go.flatMap((line) => indented(line, '[ ] ')),
    ),
    ...section('THE BOAT MEANWHILE', sheet.boat.flatMap(factLines)),
    ...section('STEPS: *** is not to be broken off; [ ] is a place to stop', sheet.steps.flatMap(rowLines)),
    ...section('STOP: wind at the instrument', sheet.stop.flatMap(bullet)),
    ...section('IF YOU STOP', sheet.abort.flatMap(bullet)),
    ...section('IF I AM HURT', sheet.hurt.flatMap(bullet)),
    ...section('PARTS AND TOOLS', [
      ...sheet.parts.flatMap(({ takes, place, left }) =>
        indented([takes, place, left].filter((text) => text !== '').join('; '), '[ ] '),
      ),
      ...sheet.tools.flatMap((line) => indented(line, '[ ] ')),
    ]),
    ...section('TELL', sheet.talk.flatMap(bullet)),
    ...section('AFTER', [
      ...sheet.after.flatMap(({ term, text }) => indented(`${term}: ${text === '' ? '_'.repeat(40) : text}`, '[ ] ')),
      'Minutes it took: ______   What I would do differently: ______________________',
    ]),
    ...section('CAUTIONS', sheet.cautions.flatMap(bullet)),
  ];
  return `${lines.join('\n')}\n`;
}

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ['', title, ...lines];

/** Wrapped with something in front of the first line, and as much room in front of the others. */
function indented(text: string, lead: string, next = ' '.repeat(columnCount(lead))): string[] {
  const room = WIDTH_COUNT - Math.max(columnCount(lead), columnCount(next));
  return wrapped(oneLine(text), room).map((line, k) => `${k === 0 ? lead : next}${line}`.trimEnd());
}

const bullet = (text: string): string[] => indented(text, '- ');

const factLines = ({ term, text }: SheetFact): string[] =>
  indented(text, `${padded(term, TERM_COUNT - 1)} `, ' '.repeat(TERM_COUNT));

/** Filled up to the width by columns; longer text stays as it is. */
const padded = (text: string, count: number): string => `${text}${' '.repeat(Math.max(0, count - columnCount(text)))}`;

const NUMBER_COUNTS = [32, 20, 11] as const;

function numberLines(rows: readonly NumberRow[]): string[] {
  const line = (cells: readonly [string, string, string, string]): string => {
    const [quantity, expected, startAt, stopAt] = cells;
    return `${padded(quantity, NUMBER_COUNTS[0])} ${padded(expected, NUMBER_COUNTS[1])} ${padded(startAt, NUMBER_COUNTS[2])} ${stopAt}`.trimEnd();
  };
  return [
    line(['', 'expected', 'start', 'stop']),
    ...rows.flatMap(({ quantity, expected, startAt, stopAt }) => {
      const whole = line([quantity, expected, startAt, stopAt]);
      return columnCount(whole) <= WIDTH_COUNT
        ? [whole]
        : [quantity, ...indented(`start: ${startAt}; stop: ${stopAt}`, '    ')];
    }),
  ];
}

function rowLines(row: SheetRow): string[] {
  if (row.kind === 'done') return indented(`done: ${row.name}`, ' '.repeat(CLOCK_COUNT));
  const lead = padded(row.clock, CLOCK_COUNT);
  if (row.kind === 'safe-point')
    return indented(`${row.text}. Time to beat: ${row.clock}`, `${' '.repeat(CLOCK_COUNT)}[ ] `);
  if (row.kind === 'wait') return indented(`${row.text} ${row.clock}`, ' '.repeat(CLOCK_COUNT + 4));
  const mark = row.stop === 'anywhere' ? '' : '*** ';
  const clip = row.clipTo === null ? '' : ` Clip: ${row.clipTo}`;
  return indented(`${mark}${row.name}, ${row.lengthMin} min (took ____), ${row.place}.${clip}`, lead);
}
