import { CHAINS, type ChainLink, libraryJob } from '../../lib/jobs/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { linksInput } from '../new-passage/index.ts';
import type { FieldView, GroupView } from './job-edit-page.ts';
import type { NewShown } from './new-shown.ts';

/** The chains of jobs of a new passage, each with the jobs that come with it. */
export interface ChainTicks {
  readonly id: string;
  readonly name: string;
  readonly problems: readonly Problem[];
  readonly hint: string;
  readonly chains: readonly ChainTick[];
}

export interface ChainTick {
  readonly value: string;
  readonly title: string;
  readonly what: string;
  readonly isTicked: boolean;
  /** How many jobs come with it. */
  readonly countText: string;
  /** Jobs that always come with it. */
  readonly always: string;
  /** Jobs that can be left out; null: none. */
  readonly links: GroupView | null;
}

export function chainTicks({ entered, problems }: Pick<NewShown, 'entered' | 'problems'>): ChainTicks {
  const ticked = entered?.all('chains') ?? [];
  return {
    id: 'new-chains',
    name: 'chains',
    problems: problems.flatMap(({ input, problem }) => (input === 'chains' ? [problem] : [])),
    hint: 'A chain comes with all its jobs (default). Open its list to leave out what is not broken.',
    chains: CHAINS.map(({ id, name, what, links }) => {
      const fixed = links.filter(({ isCore }) => isCore);
      const others = links.filter(({ isCore }) => !isCore);
      return {
        value: id,
        title: name,
        what,
        isTicked: ticked.includes(id),
        countText: `The ${links.length} jobs that come with it`,
        always: `${others.length === 0 ? 'All of them belong together' : 'Always'}: ${fixed.map(jobName).join('; ')}.`,
        links: others.length === 0 ? null : linksOf(id, others, entered),
      };
    }),
  };
}

const jobName = ({ from }: ChainLink): string => libraryJob(from)?.name ?? from;

function linksOf(chainId: string, links: readonly ChainLink[], entered: NewShown['entered']): GroupView {
  const name = linksInput(chainId);
  const sent = entered?.all(name) ?? [];
  // A list that was not sent is as it is at first: all of it.
  const value = (sent.length === 0 ? links.map(({ id }) => id) : sent.filter((id) => id !== '')).join('\n');
  const options = links.map((link) => ({ value: link.id, text: `${jobName(link)}. ${link.why}` }));
  const label = 'Where broken; all are ticked at first (default)';
  const field: FieldView = {
    name,
    label,
    kind: 'choices',
    unit: '',
    options,
    id: `new-${name}`,
    value,
    isWrong: false,
  };
  return {
    id: `new-${name}-group`,
    label,
    hint: '',
    isTable: false,
    library: null,
    keptNow: null,
    problems: [],
    fields: [field],
  };
}
