import { QUANTITIES, type QuantityId } from '../../../lib/forecast/index.ts';
import { didYouMean, ok, okUnless, type Problem, type Result } from '../../../lib/result/index.ts';
import { expandTemplate, isHttp, notHttp, type TemplateFields } from './expand-template.ts';
import { parseNumberList } from './number-list.ts';
import type { ForecastSource, WantedMessage } from './source.ts';

/** One file at the source, or the parts of it that are wanted. */
export interface FetchTarget {
  readonly url: string;
  /** Index to read first; null: the whole file is wanted. */
  readonly index: {
    readonly url: string;
    readonly kind: 'lines' | 'json-lines';
    readonly wanted: readonly WantedMessage[];
    readonly members: { readonly key: string; readonly numbers: readonly number[] } | null;
  } | null;
  /** Cycle all its fields must be of; null: any. */
  readonly cycleEpochMs: number | null;
  /** Typical size, for an estimate where there is neither index nor answer; null: none. */
  readonly typicalOctets: number | null;
}

/** What of a source is wanted, as it is asked for. */
export interface SourceChoice {
  readonly cycleEpochMs: number;
  /** `0-120/3`; null: every third hour the source has up to 120. */
  readonly steps: string | null;
  /** `wind,gust`; null: all the source has. */
  readonly quantities: string | null;
  /** `0-30/2`, `all`; 0 is the control run; null: all. */
  readonly members: string | null;
}

const DEFAULT_LAST_STEP_H = 120;
const DEFAULT_STRIDE_H = 3;

/** The target of an address given by the user: the whole file. `source.not-http`. */
export function wholeFileTarget(url: string): Result<FetchTarget> {
  const problems = isHttp(url) ? [] : [notHttp(url, 'address')];
  return okUnless(problems, () => ({ url, index: null, cycleEpochMs: null, typicalOctets: null }));
}

/**
 * Files to fetch of a source, step by step and within a step member by member.
 *
 * @returns `source.list-unreadable` | `source.no-such-step` | `source.no-such-member` | `source.no-such-quantity` and
 *   what `expandTemplate` finds
 */
export function planTargets(source: ForecastSource, choice: SourceChoice): Result<readonly FetchTarget[]> {
  const steps = chosenSteps(source, choice);
  const members = chosenMembers(source, choice.members);
  const quantities = chosenQuantities(source, choice.quantities);
  const problems = [steps, members, quantities].flatMap((read) => (read.ok ? [] : read.problems));
  if (!steps.ok || !members.ok || !quantities.ok) return okUnless(problems, () => []);
  const wanted = quantities.value.flatMap((quantity) =>
    (source.quantities[quantity] ?? []).map((keys) => ({ quantity, keys })),
  );
  const targets: FetchTarget[] = [];
  for (const stepH of steps.value) {
    for (const place of placesOf(source, { wanted, numbers: members.value })) {
      const target = targetOf(source, { ...place, stepH, cycleEpochMs: choice.cycleEpochMs });
      if (target.ok) targets.push(target.value);
      else problems.push(...target.problems);
    }
  }
  return okUnless(problems.slice(0, 5), () => targets);
}

/** Quantities wanted, in the order of the list of all. */
export function chosenQuantities(source: ForecastSource, asked: string | null): Result<readonly QuantityId[]> {
  const has = QUANTITIES.map(({ id }) => id).filter((id) => source.quantities[id] !== undefined);
  if (asked === null) return ok(has);
  const names = asked.split(',').map((name) => name.trim());
  const problems = names
    .filter((name) => !has.some((id) => id === name))
    .map((name): Problem => {
      const near = didYouMean(name, has);
      return {
        code: 'source.no-such-quantity',
        where: `quantities ${asked}`,
        what: `${source.name} has no "${name}".`,
        expected: `some of ${has.join(',')}`,
        remedy: near === null ? 'Take it out.' : `Did you mean "${near}"?`,
      };
    });
  return okUnless(problems, () => has.filter((id) => names.includes(id)));
}

function chosenSteps(source: ForecastSource, { steps: asked, cycleEpochMs }: SourceChoice): Result<readonly number[]> {
  const cycleH = new Date(cycleEpochMs).getUTCHours();
  const rows = source.steps.filter(({ cyclesH }) => cyclesH?.includes(cycleH) ?? true);
  const isThere = (stepH: number): boolean =>
    rows.some(({ fromH, toH, everyH }) => stepH >= fromH && stepH <= toH && (stepH - fromH) % everyH === 0);
  const has = rows.map(({ fromH, toH, everyH }) => `${fromH}-${toH}/${everyH}`).join(',');
  if (asked === null) {
    const lastH = Math.min(DEFAULT_LAST_STEP_H, Math.max(...rows.map(({ toH }) => toH)));
    return ok(parseNumberList(`0-${lastH}/${DEFAULT_STRIDE_H}`)?.filter(isThere) ?? []);
  }
  const list = parseNumberList(asked);
  if (list === null) return okUnless([unreadableList('steps', asked, '0-120/3')], () => []);
  const missing = list.filter((stepH) => !isThere(stepH));
  const problem: Problem = {
    code: 'source.no-such-step',
    where: `steps ${asked}`,
    what: `${source.name} has no step ${missing.slice(0, 5).join(', ')}${missing.length > 5 ? ' …' : ''} in this run.`,
    expected: `steps of ${has}`,
    remedy: 'Leave these out.',
  };
  return okUnless(missing.length > 0 ? [problem] : [], () => list);
}

/** Numbers of the members wanted; null where the source is no ensemble. */
function chosenMembers(source: ForecastSource, asked: string | null): Result<readonly number[] | null> {
  const { members } = source;
  const problem = (what: string, expected: string): Result<null> =>
    okUnless(
      [{ code: 'source.no-such-member', where: `members ${asked}`, what, expected, remedy: 'Leave these out.' }],
      () => null,
    );
  if (members === undefined)
    return asked === null ? ok(null) : problem(`${source.name} is no ensemble.`, 'a source with members');
  const least = members.control === null ? 1 : 0;
  const all = `${least}-${members.count}`;
  const list = parseNumberList(asked === null || asked === 'all' ? all : asked);
  if (list === null) return okUnless([unreadableList('members', asked ?? '', all)], () => null);
  const isThere = (number: number): boolean => number >= least && number <= members.count;
  return list.every(isThere) ? ok(list) : problem(`${source.name} has not all of these.`, `numbers of ${all}`);
}

interface Place {
  readonly wanted: readonly WantedMessage[];
  /** Members in this file that are wanted. */
  readonly numbers: readonly number[] | null;
}

/** Files of one step: one for each member that has its own, and for each parameter that has its own. */
function placesOf(source: ForecastSource, { wanted, numbers }: Place): readonly Place[] {
  const isByParam = /\{param\}/i.test(source.url);
  const byParam = isByParam ? wanted.map((one) => [one]) : [wanted];
  const inOneFile = numbers === null || source.members?.memberKey !== undefined;
  const byMember = inOneFile ? [numbers] : numbers.map((number) => [number]);
  return byMember.flatMap((some) => byParam.map((messages) => ({ wanted: messages, numbers: some })));
}

function targetOf(source: ForecastSource, place: Place & { stepH: number; cycleEpochMs: number }): Result<FetchTarget> {
  const { wanted, numbers, cycleEpochMs } = place;
  const key = source.members?.memberKey ?? null;
  const fields = fieldsOf(source, place);
  const url = expandTemplate(source.url, fields, `source ${source.id}, url`);
  if (!url.ok) return url;
  const messageCount = wanted.length * (key === null ? 1 : (numbers?.length ?? 1));
  const rest = { url: url.value, cycleEpochMs, typicalOctets: source.messageOctets * messageCount };
  const { index: kind, indexUrl: template } = source;
  if (template === undefined || kind === undefined) return ok({ ...rest, index: null });
  const indexUrl = expandTemplate(template, fields, `source ${source.id}, indexUrl`);
  const ofMembers = key === null || numbers === null ? null : { key, numbers };
  return indexUrl.ok ? ok({ ...rest, index: { url: indexUrl.value, kind, wanted, members: ofMembers } }) : indexUrl;
}

function fieldsOf(
  { members }: ForecastSource,
  { wanted, numbers, stepH, cycleEpochMs }: Place & { stepH: number; cycleEpochMs: number },
): TemplateFields {
  // With all members in one file its address names none.
  const memberNumber = members?.memberKey === undefined ? (numbers?.[0] ?? null) : null;
  const name = memberNumber === null ? null : memberName(members, memberNumber);
  return { cycleEpochMs, stepH, memberNumber, memberName: name, param: paramOf(wanted) };
}

function memberName(members: ForecastSource['members'], number: number): string | null {
  if (number === 0) return members?.control ?? null;
  return members?.perturbed.replace('*', String(number).padStart(2, '0')) ?? null;
}

const paramOf = ([first]: readonly WantedMessage[]): string | null => {
  const param = first?.keys['param'];
  return param === undefined ? null : String(param);
};

const unreadableList = (what: string, asked: string, example: string): Problem => ({
  code: 'source.list-unreadable',
  where: `${what} ${asked}`,
  what: 'It is no list of whole numbers.',
  expected: `such as ${example}`,
  remedy: 'Write single numbers and spans with commas between.',
});
