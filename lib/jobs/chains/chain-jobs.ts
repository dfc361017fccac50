import { failed, ok, type Problem, type Result } from '../../result/index.ts';
import type { JobFile } from '../job-file.ts';
import { unknownName } from '../unknown-name.ts';
import type { Chain, ChainLink } from './chain.ts';
import { CHAINS } from './chains.table.ts';

/** What of a chain is wanted. */
export interface ChainChoice {
  /** Links wanted besides those that are always there; null: all of them. */
  readonly only: readonly string[] | null;
  /** Put before every id, so that a chain can stand in a passage twice; `""`: nothing. */
  readonly prefix: string;
}

/** A chain by its id. */
export function chainOf(id: string): Result<Chain> {
  const found = CHAINS.find((chain) => chain.id === id);
  if (found !== undefined) return ok(found);
  const of = { code: 'jobs.chain-unknown', kind: 'chain', name: id, known: CHAINS.map((chain) => chain.id) };
  return failed(unknownName(of, 'chain'));
}

/**
 * The entries of a passage file for a chain, in its order. What came before a link that is left out comes before those
 * after it.
 *
 * @returns the entries, or `jobs.link-unknown` for each name that is no link of the chain
 */
export function chainJobs({ links }: Chain, { only, prefix }: ChainChoice): Result<readonly JobFile[]> {
  const known = links.map(({ id }) => id);
  const problems = (only ?? []).filter((id) => !known.includes(id)).map((id) => linkUnknown(id, known));
  const [first, ...rest] = problems;
  if (first !== undefined) return failed(first, ...rest);
  const wanted = links.filter(({ id, isCore }) => isCore || only === null || only.includes(id));
  return ok(wanted.map((link) => entryOf(link, { links, wanted, prefix })));
}

interface Cut {
  readonly links: readonly ChainLink[];
  readonly wanted: readonly ChainLink[];
  readonly prefix: string;
}

const entryOf = (link: ChainLink, cut: Cut): JobFile => ({
  id: `${cut.prefix}${link.id}`,
  from: link.from,
  priority: link.priority,
  after: [...new Set(link.after.flatMap((id) => keptBefore(id, cut)))].map((id) => `${cut.prefix}${id}`),
});

/** The link itself where it is wanted, else all that comes before it. */
function keptBefore(id: string, cut: Cut): readonly string[] {
  if (cut.wanted.some((link) => link.id === id)) return [id];
  return cut.links.find((link) => link.id === id)?.after.flatMap((before) => keptBefore(before, cut)) ?? [];
}

const linkUnknown = (name: string, known: readonly string[]): Problem =>
  unknownName({ code: 'jobs.link-unknown', kind: 'link of this chain', name, known }, 'only');
