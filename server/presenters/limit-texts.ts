import type { BindingLimit } from '../../lib/planner/index.ts';
import type { LimitMargin } from '../../lib/windows/index.ts';
import { excessText, figureText, limitFigure, limitText, type LimitSense, roomText } from './amount-texts.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { isShownAsItIs } from './units/amounts.ts';
import type { ShownUnits } from './units/shown-units.ts';

/** Name of a limit in the sailor's words, by its id in the plan. */
const names: Readonly<Record<string, string>> = {
  'deck-wind': 'wind over the deck',
  'deck-gust': 'gust over the deck',
  'sea-height': 'sea',
  steepness: 'steepness of the sea',
  'handling-wind': 'true wind for the handling',
  'handling-sea': 'sea for the handling',
  daylight: 'daylight',
  rain: 'rain',
  'air-temperature': 'air temperature',
  'sea-temperature': 'sea temperature',
  'steadying-wind': 'too little wind to steady her in this sea',
  'highest-wave': 'highest wave expected',
  visibility: 'visibility',
  'dry-before': 'dry hours before',
  // Quantities of a forecast, by their ids.
  seaHeight: 'sea height',
  wavePeriod: 'wave period',
  waveDirection: 'wave direction',
  air: 'air temperature',
  seaWater: 'sea temperature',
  cape: 'CAPE',
};

/** What binds, in words; an id nobody has named stands for itself, without hyphens. */
export const limitName = (limit: string): string => names[limit] ?? limit.replaceAll('-', ' ');

/** Names joined as in speech: `rain`, `rain and sea`, `rain, sea and gust`. */
export function joined(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}

export interface RoomTexts {
  /** `3 kn`; `light enough` where the limit is not an amount. */
  readonly room: string;
  /** `wind over the deck` */
  readonly binds: string;
  /** `15 of 18 kn at Thu 13:00` */
  readonly measured: string;
}

/** Room to a limit in the limit's own unit. */
export const roomTexts = (limit: BindingLimit, times: TimeTexts): RoomTexts =>
  textsAt(limit, epochOf(limit.atUtc), times);

/** As roomTexts, with the room in standard deviations of the forecast error where it has one: `0.7 m, 1.2 σ`. */
export function marginTexts(margin: LimitMargin, times: TimeTexts): RoomTexts {
  const texts = textsAt(margin, margin.atEpochMs, times);
  return margin.marginSd === null ? texts : { ...texts, room: `${texts.room}, ${sdText(margin.marginSd)}` };
}

/** `1.2 σ`, rounded towards the limit; beyond it `−0.4 σ`. */
const sdText = (marginSd: number): string => `${(Math.floor(marginSd * 10) / 10).toFixed(1).replace('-', '−')} σ`;

type Amounts = Pick<BindingLimit, 'limit' | 'observed' | 'required' | 'unit' | 'margin'>;

function textsAt(limit: Amounts, atEpochMs: number, times: TimeTexts): RoomTexts {
  const binds = limitName(limit.limit);
  const when = `at ${times.dayTime(atEpochMs)}`;
  if (limit.unit === 'light') return { room: lightRoom(limit.margin), binds, measured: `darkest ${when}` };
  if (limit.unit === 'yes/no') return { room: limit.margin < 0 ? 'not met' : 'met', binds, measured: when };
  const { units } = times;
  const required = limitText(limit.required, limit.unit, units, senseOf(limit));
  const measured = `${observedFigure(limit, units)} of ${required} ${when}`;
  const room =
    limit.margin < 0
      ? `over by ${excessText(-limit.margin, limit.unit, units)}`
      : roomText(limit.margin, limit.unit, units);
  return { room, binds, measured };
}

/** In other units rounded as its limit is: what is inside it must not read as outside. */
const observedFigure = (limit: Amounts, units: ShownUnits): string =>
  isShownAsItIs(limit.unit, units)
    ? figureText(limit.observed, limit.unit)
    : limitFigure(limit.observed, limit.unit, units, senseOf(limit));

/** Which side is safe, told by the sign of the room. */
const senseOf = ({ observed, required, margin }: Amounts): LimitSense =>
  (observed - required) * margin > 0 ? 'at-least' : 'at-most';

/** Light is counted in classes: day 0, civil twilight 1, nautical 2, night 3. */
function lightRoom(marginClasses: number): string {
  if (marginClasses < 0) return 'too dark';
  return marginClasses < 1 ? 'twilight, just enough' : 'full daylight';
}
