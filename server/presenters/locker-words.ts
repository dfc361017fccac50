import { type LockerChange, type LockerItem, PIECES } from '../../lib/stock/index.ts';
import { plainFigure } from './job-figures.ts';
import type { TimeTexts } from './time-texts.ts';

/** `12.5 m`, `1 piece`; two figures behind the point at most. */
export function stockText(amount: number, unit: string): string {
  const figure = plainFigure(amount);
  return `${figure} ${figure === '1' && unit === PIECES ? 'piece' : unit}`;
}

/** `3000 mm long, 8 mm thick`; empty: it is no bar. */
export const sizeText = ({ lengthMm, diameterMm }: Pick<LockerItem, 'lengthMm' | 'diameterMm'>): string =>
  [
    ...(lengthMm === null ? [] : [`${lengthMm} mm long`]),
    ...(diameterMm === null ? [] : [`${diameterMm} mm thick`]),
  ].join(', ');

/** One line of a locker that becomes another. */
export interface ChangeView {
  /** `Comes in`, `Goes out`, `Changes` */
  readonly word: string;
  readonly name: string;
  readonly text: string;
}

const CHANGE_WORDS = { added: 'Comes in', 'taken-out': 'Goes out', changed: 'Changes' } as const;

export const changeViews = (changes: readonly LockerChange[], times: TimeTexts): readonly ChangeView[] =>
  changes.map((change) => ({
    word: CHANGE_WORDS[change.change],
    name: [change.item, sizeText(change)].filter(isSaid).join(', '),
    text: changeText(change, times),
  }));

function changeText({ before, after }: LockerChange, times: TimeTexts): string {
  const was = before === null ? null : partsOf(before, times);
  const is = after === null ? null : partsOf(after, times);
  if (was === null || is === null)
    return Object.values(is ?? was ?? {})
      .filter(isSaid)
      .join(', ');
  const renamed = before?.item === after?.item ? [] : [`written “${before?.item ?? ''}” before`];
  const changed = PART_NAMES.filter((name) => was[name] !== is[name]).map(
    (name) => `${was[name] || NOTHING[name]} before, ${is[name] || NOTHING[name]} now`,
  );
  return [...renamed, ...changed].join('; ');
}

const isSaid = (text: string): boolean => text !== '';

const NOTHING = {
  amount: 'nothing on board',
  reserve: 'no reserve',
  kind: 'material',
  place: 'no place said',
  ready: 'ready at once',
} as const;

type PartName = keyof typeof NOTHING;

const PART_NAMES = ['amount', 'reserve', 'kind', 'place', 'ready'] as const;

const partsOf = (line: LockerItem, times: TimeTexts): Readonly<Record<PartName, string>> => ({
  amount: stockText(line.onBoardAmount, line.unit),
  reserve: line.keepAmount === 0 ? '' : `${stockText(line.keepAmount, line.unit)} in reserve`,
  kind: line.kind === 'material' ? '' : `a ${line.kind}`,
  place: line.place ?? '',
  ready: line.readyEpochMs === null ? '' : `not before ${times.full(line.readyEpochMs)}`,
});
