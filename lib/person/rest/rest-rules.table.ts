import { constantsFrom, type Constant } from '../constant.ts';

const stcw = constantsFrom('STCW_A_VIII_1', 'paragraphs 2 and 3');
const exception = constantsFrom('STCW_A_VIII_1', 'paragraph 9, text at second hand');
const mlc = constantsFrom('MLC_2006_A2_3', 'paragraph 5; the same figures in ILO C180, article 5(1)');
const mlcPeriods = constantsFrom(
  'MLC_2006_A2_3',
  'paragraph 6 from memory; the same figures seen in ILO C180, article 5(2)',
);

/** Rest of a watchkeeper of a merchant ship. */
export const STCW_REST = {
  rest24: stcw(10, 'h'),
  rest7Days: stcw(77, 'h'),
  /** The rest of 24 h may be divided into so many periods, one of them at least so long. */
  mostPeriods: stcw(2, 'periods'),
  longestPeriod: stcw(6, 'h'),
  /** Between two rests that follow each other. */
  interval: stcw(14, 'h'),
} as const satisfies Readonly<Record<string, Constant>>;

/** What a flag state may allow instead, for a time. */
export const STCW_EXCEPTION = {
  rest7Days: exception(70, 'h'),
  mostPeriods: exception(3, 'periods'),
  longestPeriod: exception(6, 'h'),
  otherPeriods: exception(1, 'h'),
  interval: exception(14, 'h'),
  /** Three periods instead of two: on so many periods of 24 h in any 7 days. */
  mostDaysOf7: exception(2, 'periods of 24 h'),
  /** Less rest in 7 days: for so long, and then not again for so many times its length. */
  mostWeeks: exception(2, 'weeks'),
  leastPause: exception(2, 'times its length'),
} as const satisfies Readonly<Record<string, Constant>>;

/** Rest of a seafarer; a state chooses between least rest and most work. Work is not asked here: waking is not work. */
export const MLC_REST = {
  rest24: mlc(10, 'h'),
  rest7Days: mlc(77, 'h'),
  work24: mlc(14, 'h'),
  work7Days: mlc(72, 'h'),
  mostPeriods: mlcPeriods(2, 'periods'),
  longestPeriod: mlcPeriods(6, 'h'),
  interval: mlcPeriods(14, 'h'),
} as const satisfies Readonly<Record<string, Constant>>;
