import { lengthText, inside, sheetTimes } from './sheet-times.ts';
import { daylightEnd, startAndStop } from './numbers.ts';
import type { SheetWork } from './sheet-work.ts';

/** Common practice, no source. */
const SHIP_NM = 12;
const FEELINGS = 'you shiver, feel sick, are drowsy or do the same thing wrong twice';

const rule = (seen: string, act: string): string => `If ${seen}, then ${act}.`;

/** Numbers and feelings at which work stops. */
export function stopRules(work: SheetWork): string[] {
  const { job, begin, names } = work;
  const { stop } = startAndStop(work);
  const needsLight = job.steps.some(({ limits }) => limits.daylight === 'required');
  const duskEpochMs = begin === null || !needsLight ? null : daylightEnd(begin);
  return [
    ...windRule('the mean wind', stop.instrumentWindKn, stop.deckWindKn),
    ...windRule('a gust', stop.instrumentGustKn, stop.deckGustKn),
    ...(stop.seaM === null ? [] : [rule(`the sea is ${stop.seaM.toFixed(1)} m`, 'stop')]),
    ...(stop.trueWindKn === null
      ? []
      : [rule(`the true wind at 10 m is ${stop.trueWindKn} kn`, 'stop: this handling ends there')]),
    rule('the barometer falls 1 hPa in 1 h or 3 in 3 h', 'stop'),
    rule(`a ship closes inside ${SHIP_NM} nm`, 'stop, and look to it'),
    ...(duskEpochMs === null
      ? []
      : [rule(`it is ${sheetTimes(names.shipTimeOffsetMin).ship(duskEpochMs)} (the last light)`, 'stop')]),
    rule(FEELINGS, 'stop'),
  ];
}

function windRule(what: string, instrumentKn: number | null, deckKn: number | null): string[] {
  if (deckKn === null) return [];
  const seen = instrumentKn === null ? `${deckKn} kn on deck` : `${instrumentKn} kn (${deckKn} on deck)`;
  return [rule(`${what} is ${seen}`, 'stop')];
}

/** What “stop” means, in three lines. */
export function abortPlan({ job, planned }: SheetWork): string[] {
  const bold = job.steps.some(({ stop }) => stop !== 'anywhere');
  const turnBack = (job.turnBack ?? 'Bring it to the nearest box of the clock.').replace(/\.$/, '');
  return [
    rule('you stop', `${bold ? 'end a step in bold first. Then: ' : 'do this: '}${turnBack}`),
    job.pointOfNoReturn === null
      ? rule('you cannot tell how far it is', 'go to the nearest box of the clock, and leave it there')
      : noReturnRule(job.pointOfNoReturn),
    rule(
      'it is stopped',
      `look all round, go below, log it, and plan again${planned.fallback === null ? '' : ' for the second window'}`,
    ),
  ];
}

/** `The halyard is eased: the sail comes down.` says itself what is to be done. */
function noReturnRule(pointOfNoReturn: string): string {
  const [seen = '', ...act] = inside(pointOfNoReturn).split(': ');
  const onward =
    act.length === 0 ? 'go on to the next box of the clock, which is safer than going back' : act.join(': ');
  return rule(seen, onward);
}

/** Common practice, no source; the order is that of first aid at sea: keep yourself on board, stop the loss, call. */
export const hurtCard: readonly string[] = [
  rule('you are hurt', 'hold on, stay clipped on, get below'),
  rule('it bleeds', 'press on it until it stops, lying down'),
  rule(
    'you hit your head, or a limb does not do its work',
    'tell the shore, give your position, ask for a doctor by radio',
  ),
  rule('your life is in danger', 'send distress: DSC, beacon, voice'),
];

/** Minutes of silence after which the shore acts; common practice, no source. */
const ALOFT_SILENT_MIN = 60;
const SILENT_MIN = 120;

/** What is told to whom, and when somebody ashore begins to act. */
export function talkLines({ job, begin, names, passage, entries }: SheetWork): string[] {
  const isAloft = job.steps.some(({ place }) => place === 'aloft' || place === 'overside');
  const silentMin = isAloft ? ALOFT_SILENT_MIN : SILENT_MIN;
  const times = sheetTimes(names.shipTimeOffsetMin);
  const silence = `${lengthText(silentMin)} after “down by”`;
  const act = 'then ______________ acts';
  if (begin === null) return [`If silent ${silence}, ${act}.`, ...NUMBERS];
  const downBy = times.both(begin.downByEpochMs);
  const points = entries.map(({ endEpochMs }) => times.ship(endEpochMs));
  return [
    `At the start: “${passage.boat.name} begins ${inside(job.name)}, down by ${downBy}.”`,
    `At each safe point: ${points.join(', ')}.`,
    `If silent at ${times.both(begin.downByEpochMs + silentMin * 60_000)}, ${act}.`,
    ...NUMBERS,
  ];
}

const NUMBERS = ['Rescue: ______________ Doctor: ______________'];
