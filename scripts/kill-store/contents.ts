import { createHash } from 'node:crypto';
import type { Result } from '../../lib/result/index.ts';
import type { Store, StoredMessage } from '../../server/stores/index.ts';
import type { Kept } from './lines.ts';

export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

export function valueOf<T>(result: Result<T>): T {
  if (result.ok) return result.value;
  throw new Error(result.problems.map(({ code, what }) => `${code}: ${what}`).join(' '));
}

export const keptVersion = (of: { number: number; version: number }, json: string): Kept => ({
  key: `version ${of.number}.${of.version}`,
  mark: sha256(json),
});

/** Log entries and plans. */
export const keptRow = (table: 'log' | 'plan', of: { passageNumber: number; number: number; json: string }): Kept => ({
  key: `${table} ${of.passageNumber}.${of.number}`,
  mark: sha256(of.json),
});

/** Its counter belongs to the name, so that one used twice is found. */
export const keptMessage = (of: StoredMessage): Kept => ({
  key: `message ${of.direction} ${of.kind} ${of.sender} ${of.counterNumber}`,
  mark: sha256(JSON.stringify([of.passageNumber, of.number, of.text, of.fingerprint, of.signature])),
});

export const keptView = (passageNumber: number, serial: number): Kept => ({
  key: `view ${passageNumber}`,
  mark: String(serial),
});

export const keptForecast = (hash: string): Kept => ({ key: `forecast ${hash}`, mark: hash });

/** Everything in a store. */
export function contentsOf(store: Store): ReadonlyMap<string, string> {
  const all: Kept[] = [];
  for (const { number } of valueOf(store.passages.list())) {
    for (const of of valueOf(store.documents.versions(number)))
      all.push(keptVersion(of, valueOf(store.documents.versionText(of)) ?? ''));
    all.push(...valueOf(store.log.list(number)).map((entry) => keptRow('log', entry)));
    for (const plan of valueOf(store.plans.list(number))) {
      const stored = valueOf(store.plans.get(number, plan.number));
      if (stored !== null) all.push(keptRow('plan', stored));
    }
    all.push(...valueOf(store.messages.list(number)).map(keptMessage));
    const view = valueOf(store.planViews.get(number));
    if (view !== null) all.push(keptView(number, Number(Buffer.from(view.octets).toString('utf8').slice(0, 12))));
  }
  all.push(...valueOf(store.forecasts.list()).map(({ hash }) => keptForecast(hash)));
  return new Map(all.map(({ key, mark }) => [key, mark]));
}
