import { assertNever } from '../../result/index.ts';
import { PIECES } from '../../stock/index.ts';
import { formatUtc } from '../../time/index.ts';
import type { MaterialShortFinding, ReadinessFinding } from './finding.ts';
import type { Offer } from './offers.ts';

/** A finding in words; `remedies` is empty where there is nothing to be done about it. */
export interface ReadinessWords {
  readonly text: string;
  readonly remedies: readonly string[];
}

/** A finding as sentences; jobs are named by their ids. */
export function readinessWords(finding: ReadinessFinding): ReadinessWords {
  switch (finding.effect) {
    case 'bars':
      return barringWords(finding);
    case 'delays':
      return { text: delayText(finding), remedies: [] };
    case 'unknown':
      return uncountedWords(finding);
    case 'note':
      return noteWords(finding);
    default:
      return assertNever(finding);
  }
}

type Of<E extends ReadinessFinding['effect']> = Extract<ReadinessFinding, { effect: E }>;

function barringWords(finding: Of<'bars'>): ReadinessWords {
  if (finding.code === 'material-short') return shortWords(finding);
  if (finding.code === 'after-barred')
    return {
      text: `It comes after "${finding.jobId}", which cannot be done.`,
      remedies: [`Solve "${finding.jobId}" first.`],
    };
  return {
    text: finding.isListed
      ? `The locker has no "${finding.tool}" on board.`
      : `The locker does not list the tool "${finding.tool}".`,
    remedies: [
      ...(finding.nearName === null ? [] : [meant(finding.nearName)]),
      ...finding.offers.map(offerWords),
      'If it is on board, list it; if the job needs none, take it out of "needsTools".',
    ],
  };
}

const delayText = (finding: Of<'delays'>): string =>
  finding.code === 'made-before'
    ? `${finding.item}: "${finding.makerId}" makes ${amountWords(finding.amount, finding.unit)} of it first.`
    : `${finding.item}: not to be used before ${formatUtc(finding.readyEpochMs)}.`;

const uncountedWords = ({ code, items }: Of<'unknown'>): ReadinessWords =>
  code === 'materials-not-counted'
    ? {
        text: `The locker lists nothing, so nobody has counted: ${items.join(', ')}.`,
        remedies: ['Fill in the locker.'],
      }
    : {
        text: `The locker lists no tools, so nobody has looked for: ${items.join(', ')}.`,
        remedies: ['List the tools in the locker, with the kind "tool".'],
      };

function noteWords(finding: Of<'note'>): ReadinessWords {
  if (finding.code === 'leaves-short')
    return {
      text: `"${finding.jobId}" then goes short of ${amountWords(finding.amount, finding.unit)} of ${finding.item}.`,
      remedies: [],
    };
  if (finding.code === 'tool-held')
    return {
      text: `${finding.tool}: held by ${jobList(finding.heldByIds)} until its wait is over; this job does not start in between.`,
      remedies: [],
    };
  if (finding.code === 'tool-shared') {
    const how = finding.isHeldHere ? 'not started while this job holds it' : 'one job at a time';
    return { text: `${finding.tool}: wanted by ${jobList(finding.jobIds)} too; ${how}.`, remedies: [] };
  }
  return {
    text: `${finding.tool}: wanted by ${jobList(finding.jobIds)} too; ${finding.onBoardCount} on board for ${finding.jobIds.length + 1} jobs.`,
    remedies: ['Charge between the jobs.'],
  };
}

function shortWords(finding: MaterialShortFinding): ReadinessWords {
  const { item, unit, onBoardAmount, keepAmount } = finding;
  const inUnit = (value: number): string => amountWords(value, unit);
  const taken = finding.takenBy.map(({ jobId, amount }) => `"${jobId}" takes ${inUnit(amount)}`);
  const store = [
    onBoardAmount === 0 ? 'none on board' : `${inUnit(onBoardAmount)} on board`,
    ...(keepAmount === 0 ? [] : [`${inUnit(keepAmount)} reserve`]),
    ...taken,
  ].join(', ');
  return {
    text: `${item}: short by ${inUnit(finding.shortAmount)}; ${inUnit(finding.neededAmount)} needed, ${store}.`,
    remedies: [
      ...finding.makerIds.map((id) => `"${id}" makes it: add "${id}" to the jobs this one comes after.`),
      ...(finding.nearName === null ? [] : [meant(finding.nearName)]),
      ...(keepAmount > 0 && onBoardAmount > 0 ? ['Lower the reserve, if you know what you do.'] : []),
      ...finding.offers.map(offerWords),
    ],
  };
}

const meant = (name: string): string => `Is it "${name}" in the locker? Then give both the same name.`;

function offerWords({ instead, because, saves, isEnough }: Offer): string {
  const saved =
    saves === null
      ? ''
      : ` Saves ${amountWords(saves.amount, saves.unit)}${isEnough === true ? ', which is enough' : ', which is not enough alone'}.`;
  return `${instead}${saved} ${because}`;
}

const DECIMALS_BELOW = 10;

/** Two figures behind the point below ten, one above; no zeros at the end. */
function amountWords(amount: number, unit: string): string {
  const rounded = Number(amount.toFixed(Math.abs(amount) < DECIMALS_BELOW ? 2 : 1));
  return `${rounded} ${rounded === 1 && unit === PIECES ? 'piece' : unit}`;
}

const jobList = (ids: readonly string[]): string => ids.map((id) => `"${id}"`).join(', ');
