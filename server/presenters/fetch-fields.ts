import type { Problem } from '../../lib/result/index.ts';
import type { FetchAsked } from '../keep-forecasts.ts';

/** One line of the form that gets a forecast. */
export interface FetchField {
  readonly name: string;
  readonly label: string;
  readonly value: string;
  readonly hint: string;
  /** What is wrong with it; empty: nothing is. All of the problem stands above the form. */
  readonly wrong: string;
}

/** The lines of the form with what was entered, each with what is wrong there. */
export function fetchFields(asked: FetchAsked, problems: readonly Problem[]): readonly FetchField[] {
  const wrongAt = new Map(problems.map((problem) => [fieldOf(problem, asked), problem.what]));
  return [
    {
      name: 'address',
      label: 'Address',
      value: asked.address,
      hint: 'http or https; only for an address of your own',
    },
    { name: 'cycle', label: 'Run', value: asked.cycle, hint: 'latest, or the hour it began, such as 2026-05-27T18' },
    { name: 'steps', label: 'Hours', value: asked.steps, hint: 'such as 0-96/3; empty: every third to 120' },
    {
      name: 'quantities',
      label: 'Quantities',
      value: asked.quantities,
      hint: 'such as wind,gust,pressure; empty: all',
    },
    {
      name: 'members',
      label: 'Members',
      value: asked.members,
      hint: 'such as 0-30/3; empty: all; 0 is the control run',
    },
    { name: 'rate', label: 'At most, kB a second', value: asked.mostKbPerS, hint: 'empty: as fast as it goes' },
  ].map((field) => ({ ...field, wrong: wrongAt.get(field.name) ?? '' }));
}

const NAMED = ['cycle', 'steps', 'quantities', 'members'] as const;

/** The place of a problem begins with what it is about; what is said of an address of one's own names that address. */
function fieldOf({ code, where }: Problem, { sourceId }: FetchAsked): string {
  if (code === 'fetch.rate') return 'rate';
  const named = NAMED.find((name) => where === name || where.startsWith(`${name} `));
  if (named !== undefined) return named;
  return sourceId === '' ? 'address' : '';
}
