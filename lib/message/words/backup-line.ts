import { assertNever } from '../../result/index.ts';
import { formatAt, MS_PER_H } from '../../time/index.ts';
import { type Digest, STEP_H } from '../digest/digest.ts';
import { smsLength } from '../frames/septets.ts';
import type { Message } from '../message.ts';
import type { PlanMessage } from '../plan/plan-message.ts';
import { formatReportPosition } from '../report/position-text.ts';
import type { ReportMessage } from '../report/report-message.ts';

/** A short message of the mobile networks [septets]. */
const MOST_COUNT = 160;

/**
 * The gist in plain English, for when the key to the fields is lost: one line of at most 160 characters that every
 * telephone can send. It carries no check, and is no message to be read by the program.
 */
export function backupLine(message: Message): string {
  switch (message.kind) {
    case 'plan':
      return fitted(planPieces(message));
    case 'report':
      return fitted(reportPieces(message));
    case 'digest':
      return fitted([`Weather digest of ${time(message.madeEpochMs)}Z.`, ...digestPieces(message.digest)]);
    default:
      return assertNever(message);
  }
}

const time = (epochMs: number): string => formatAt(epochMs, 0, 'ccc d LLL HH:mm');

/** As many pieces as fit, whole ones only. */
function fitted(pieces: readonly string[]): string {
  let line = '';
  for (const piece of pieces) {
    const longer = line === '' ? plain(piece) : `${line} ${plain(piece)}`;
    if (smsLength(longer).unitCount > MOST_COUNT) return line === '' ? longer.slice(0, MOST_COUNT) : line;
    line = longer;
  }
  return line;
}

/** Only what is one septet and one octet. */
const plain = (text: string): string => text.replaceAll(/[^A-Za-z0-9 .,:;()+/?!-]/g, '?');

/** Wind now, least and last, then gust and sea: what the summary of a digest says in letters. */
function digestPieces({ windKn, gustKn, seaHeightM, firstEpochMs }: Digest): string[] {
  const known = (values: readonly number[]): number[] => values.filter((value) => !Number.isNaN(value));
  const [wind, gust, sea] = [known(windKn), known(gustKn), known(seaHeightM)];
  const leastKn = Math.min(...wind);
  const leastEpochMs = firstEpochMs + windKn.indexOf(leastKn) * STEP_H * MS_PER_H;
  const kn = (value: number | undefined): string => `${Math.round(value ?? 0)} kn`;
  return [
    `Wind ${kn(wind[0])}, least ${kn(leastKn)} ${time(leastEpochMs)}Z, at the end ${kn(wind.at(-1))}.`,
    ...(gust.length === 0 ? [] : [`Gusts to ${kn(Math.max(...gust))}.`]),
    ...(sea.length === 0 ? [] : [`Sea ${Math.max(...sea).toFixed(1)} to ${Math.min(...sea).toFixed(1)} m.`]),
  ];
}

function planPieces(message: PlanMessage): string[] {
  const number = message.planNumber === null ? 'Plan' : `Plan ${message.planNumber}`;
  const jobs = message.jobs.filter(({ status, work }) => status === 'planned' && work.length > 0);
  return [
    `${number} of ${time(message.madeEpochMs)}Z.`,
    ...(jobs.length === 0 ? ['Nothing planned.'] : []),
    ...jobs.flatMap(({ jobId, work, fallback, stop }) => {
      const [first] = work;
      if (first === undefined) return [];
      const handling = first.handling === null ? '' : ` ${first.handling}`;
      const stopAt = stop === null || stop.windKn === null ? '' : `, stop at ${stop.windKn} kn on deck`;
      const or = fallback === null ? '' : `, else ${time(fallback.startEpochMs)}`;
      return [`${jobId} ${time(first.startEpochMs)}${handling}${stopAt}${or}.`];
    }),
  ];
}

function reportPieces(message: ReportMessage): string[] {
  const last = message.observations.at(-1);
  const { position = null, wind = null, pressureHpa = null } = last ?? {};
  return [
    `Report of ${time(message.madeEpochMs)}Z.`,
    position === null ? 'Position unknown.' : `Position ${spaced(formatReportPosition(position))}.`,
    wind === null
      ? 'Wind unknown.'
      : wind.kind === 'true'
        ? `True wind ${wind.speedKn} kn${wind.fromDegTrue === null ? '' : ` from ${wind.fromDegTrue}`}.`
        : `Apparent wind ${wind.speedKn} kn.`,
    ...(pressureHpa === null ? [] : [`${pressureHpa} hPa.`]),
    ...message.jobEvents.toReversed().map(({ jobId, event, atEpochMs }) => `${jobId} ${event} ${time(atEpochMs)}.`),
  ];
}

/** `35 58.4S 175 45.1W`. */
const spaced = (position: string): string => position.replaceAll(/(\d+)(\d\d)(\d)([NSEW])/g, '$1 $2.$3$4 ').trim();
