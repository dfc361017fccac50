import { didYouMean } from '../../result/index.ts';
import { itemKey, type Locker } from '../../stock/index.ts';
import type { Job } from '../job.ts';
import type { ReadinessFinding } from './finding.ts';
import { toolsLeft, type Progress } from './needs.ts';
import { offersForTool } from './offers.ts';

/** What the tools of one job are judged by; jobs in the order they take from the locker. */
export interface ToolFacts {
  readonly jobs: readonly Job[];
  readonly locker: Locker;
  readonly progress: Progress;
}

/** What speaks against a job, or is to be known, by its tools. Tools come back, so no reserve is kept of them. */
export function toolFindings(facts: ToolFacts, job: Job): ReadinessFinding[] {
  const tools = toolsLeft(job, facts.progress);
  if (tools.length === 0) return [];
  const onBoard = listsTools(facts.locker)
    ? tools.flatMap((tool) => onBoardFindings(facts.locker, tool, job))
    : [{ code: 'tools-not-counted', effect: 'unknown', items: tools } as const];
  return [...onBoard, ...tools.flatMap((tool) => sharedFindings(facts, tool, job))];
}

/** A locker that lists no tool at all says nothing of tools. */
const listsTools = ({ items }: Locker): boolean => items.some(({ kind }) => kind === 'tool');

const linesOf = ({ items }: Locker, tool: string) => items.filter(({ item }) => itemKey(item) === itemKey(tool));

function onBoardFindings(locker: Locker, tool: string, job: Job): ReadinessFinding[] {
  const lines = linesOf(locker, tool);
  const there = lines.filter(({ onBoardAmount }) => onBoardAmount > 0);
  if (there.length === 0)
    return [
      {
        code: 'tool-missing',
        effect: 'bars',
        tool,
        isListed: lines.length > 0,
        nearName:
          lines.length > 0
            ? null
            : didYouMean(
                tool,
                locker.items.map(({ item }) => item),
              ),
        offers: offersForTool(tool, job),
      },
    ];
  const readyEpochMs = Math.min(...there.map((line) => line.readyEpochMs ?? -Infinity));
  return Number.isFinite(readyEpochMs) ? [{ code: 'tool-later', effect: 'delays', item: tool, readyEpochMs }] : [];
}

/** A battery is empty after a job, whatever it drives. */
const isBattery = (tool: string): boolean => /\bbattery\b/i.test(tool);

function sharedFindings({ jobs, locker, progress }: ToolFacts, tool: string, job: Job): ReadinessFinding[] {
  const wants = (other: Job, tools: readonly string[]): boolean =>
    other.id !== job.id && tools.some((name) => itemKey(name) === itemKey(tool));
  const others = jobs.filter((other) => wants(other, toolsLeft(other, progress)));
  if (others.length === 0) return [];
  const jobIds = others.map(({ id }) => id);
  const lines = linesOf(locker, tool);
  const onBoardCount = lines.length === 0 ? 1 : lines.reduce((sum, line) => sum + line.onBoardAmount, 0);
  if (isBattery(tool))
    return onBoardCount > jobIds.length ? [] : [{ code: 'charge-between', effect: 'note', tool, onBoardCount, jobIds }];
  const holds = (other: Job): boolean => wants(other, progress.get(other.id)?.tools ?? []);
  const heldByIds = others.filter(holds).map(({ id }) => id);
  if (heldByIds.length > 0) return [{ code: 'tool-held', effect: 'note', tool, heldByIds }];
  const isHeldHere = (progress.get(job.id)?.tools ?? []).some((name) => itemKey(name) === itemKey(tool));
  return [{ code: 'tool-shared', effect: 'note', tool, jobIds, isHeldHere }];
}
