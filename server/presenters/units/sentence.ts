/** Sentences of the core, written in kn, m and °C, in the units a reader sees. */
import { type FigureStyle, forceText, isShownAsItIs, shownFigure, shownUnit } from './amounts.ts';
import { amountMeaning, type Amount, limitMeaning, type Meaning } from './amount-meaning.ts';
import type { ShownUnits } from './shown-units.ts';

/** One figure or several before one unit: `17 kn`, `2.0 m`, `12 / 15 / 18 kn`, `−2 °C`; not one that has its force already. */
const AMOUNT =
  /(?<![\p{L}\p{N}.,:])([+−-]?\d+(?:\.\d+)?(?:(?: to |–| \/ )\d+(?:\.\d+)?)*)([ \u{A0}])(kn|m|°C)(?![\p{L}\p{N}²/]| [([]Bft)/gu;

/**
 * Each amount of wind, sea and temperature in a text converted where it stands; all other text stays. What has another
 * meaning than these stays too: lengths and heights of other things in m, speeds of boat and current in kn, names in
 * quotation marks. A limit is never made looser by rounding, nor room made larger.
 */
export const sentenceIn = (text: string, units: ShownUnits): string => amountsIn(text, units, amountMeaning);

/** As sentenceIn, for a sentence that may be absent. */
export const sentenceOrNullIn = (text: string | null, units: ShownUnits): string | null =>
  text === null ? text : sentenceIn(text, units);

/** As sentenceIn, for a text of limits: every amount in it is one, and every length in m is of the sea. */
export const limitsIn = (text: string, units: ShownUnits): string => amountsIn(text, units, limitMeaning);

/** @param meant what an amount is; null: it stays as it is */
function amountsIn(text: string, units: ShownUnits, meant: (amount: Amount) => Meaning | null): string {
  const parts: string[] = [];
  let writtenTo = 0;
  for (const match of text.matchAll(AMOUNT)) {
    const [whole, figures = '', space = '', unit = ''] = match;
    if (isShownAsItIs(unit, units)) continue;
    const to = match.index + whole.length;
    const amount = { figures, unit, before: text.slice(0, match.index), after: text.slice(to) };
    const meaning = meant(amount);
    if (meaning === null) continue;
    parts.push(text.slice(writtenTo, match.index), converted(amount, { meaning, units, space }));
    writtenTo = to;
  }
  return [...parts, text.slice(writtenTo)].join('');
}

interface Meant {
  readonly meaning: Meaning;
  readonly units: ShownUnits;
  /** Between figure and unit. */
  readonly space: string;
}

function converted(amount: Amount, { meaning, units, space }: Meant): string {
  const { figures, unit } = amount;
  const shown = figures.replaceAll(/([+−-]?)(\d+(?:\.\d+)?)/g, (_, sign: string, digits: string) =>
    // Knots beside a force stay as they were written.
    shownUnit(unit, units) === unit ? `${sign}${digits}` : figureIn({ sign, digits, unit }, meaning, units),
  );
  const text = `${shown}${space}${shownUnit(unit, units)}`;
  return meaning.sense === 'difference' ? text : `${text}${forcesOf(amount, meaning, units)}`;
}

/** A figure with its sign; a span of figures has none but its first, for `4-6` is no `−6`. */
function figureIn(
  { sign, digits, unit }: { readonly sign: string; readonly digits: string; readonly unit: string },
  meaning: Meaning,
  units: ShownUnits,
): string {
  const isMinus = sign === '−' || sign === '-';
  const style: FigureStyle = { decimals: digits.split('.')[1]?.length ?? 0, ...meaning };
  const figure = shownFigure((isMinus ? -1 : 1) * Number(digits), unit, style, units);
  if (figure.startsWith('-')) return figure.replace('-', isMinus ? sign : '−');
  return sign === '+' ? `+${figure}` : figure;
}

/** ` (Bft 5)`, in square brackets inside round ones; of several figures the forces of the first and last. */
function forcesOf({ figures, unit, before }: Amount, { rounding }: Meaning, units: ShownUnits): string {
  const values = [...figures.matchAll(/\d+(?:\.\d+)?/g)].map(([digits]) => Number(digits));
  const [first = '', last = ''] = [values[0] ?? 0, values.at(-1) ?? 0].map((value) =>
    forceText(value, unit, units, rounding),
  );
  if (first === '') return '';
  const said = first === last ? first : `${first} to ${last.replace('Bft ', '')}`;
  const isInBrackets = before.lastIndexOf('(') > before.lastIndexOf(')');
  return isInBrackets ? ` [${said}]` : ` (${said})`;
}
