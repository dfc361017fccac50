import { itemOrNull, type Topic } from './check-item.ts';
import { differences } from './compare.ts';
import { navigationTopics } from './navigation-topics.ts';
import { personTopics } from './person-topics.ts';
import { seaTopics } from './sea-topics.ts';
import { skyTopics } from './sky-topics.ts';
import { windTopics } from './wind-topics.ts';

/** Everything the library can be asked by a file of check values. */
export const allTopics: readonly Topic[] = [
  ...navigationTopics,
  ...windTopics,
  ...seaTopics,
  ...skyTopics,
  ...personTopics,
];

export interface CheckReport {
  readonly passedIds: readonly string[];
  readonly failures: readonly { readonly id: string; readonly topic: string; readonly lines: readonly string[] }[];
  readonly unknown: readonly { readonly id: string; readonly topic: string }[];
}

/** Checks every item of a document `{ items: [...] }` against the library. */
export function checkDocument(document: unknown, topics: readonly Topic[] = allTopics): CheckReport {
  const items = typeof document === 'object' && document !== null && 'items' in document ? document.items : document;
  if (!Array.isArray(items)) throw new Error('the file holds no items: [...]');
  const passedIds: string[] = [];
  const failures: { id: string; topic: string; lines: readonly string[] }[] = [];
  const unknown: { id: string; topic: string }[] = [];
  for (const [index, raw] of items.entries()) {
    const item = itemOrNull(raw);
    if (item === null) {
      failures.push({
        id: `item ${index + 1}`,
        topic: '?',
        lines: ['is not {id, topic, inputs, expected, tolerance}'],
      });
      continue;
    }
    const topic = topics.find((known) => known.topic === item.topic);
    if (topic === undefined) {
      unknown.push({ id: item.id, topic: item.topic });
      continue;
    }
    const lines = differences(item, topic);
    if (lines.length === 0) passedIds.push(item.id);
    else failures.push({ id: item.id, topic: item.topic, lines });
  }
  return { passedIds, failures, unknown };
}

/** One line for each failure, the topics that are not known, and the count of all three. */
export function formatReport(report: CheckReport): string {
  const topics = [...new Set(report.unknown.map(({ topic }) => topic))];
  return [
    ...report.failures.flatMap(({ id, topic, lines }) => lines.map((line) => `${id} (${topic}): ${line}`)),
    ...(topics.length === 0 ? [] : [`Unknown topics: ${topics.join(', ')}`]),
    `${report.passedIds.length} passed, ${report.failures.length} failed, ${report.unknown.length} of unknown topic`,
  ].join('\n');
}
