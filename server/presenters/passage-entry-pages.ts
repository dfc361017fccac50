import { type EntryField, textsOf } from '../entry-forms/index.ts';
import {
  atRows,
  SETTINGS_FIELDS,
  shownStart,
  shownWatchkeeper,
  sleepFields,
  startFields,
  WATCHKEEPER_FIELDS,
} from '../passage-forms/index.ts';
import { withDefaults } from './default-hints.ts';
import { type Entered, entryPage, type EntryPage } from './entry-page.ts';
import { settingsDefaults, watchkeeperDefaults } from './passage-defaults.ts';

type Texts = ReadonlyMap<string, string>;

const HEAD = { backHref: '/', isThere: false } as const;

/** Form of the departure. */
export function startPage(entered: Entered): EntryPage {
  const { file, passage } = entered.document;
  const fields = startFields(passage.boat);
  const texts = textsOf(fields, shownStart(file));
  return entryPage(entered, {
    ...HEAD,
    title: 'Start of the passage',
    action: '/passage/start',
    fields: withDefaults(fields, texts, new Map([['sailState', 'full-main']])),
    texts,
    place: 'start',
  });
}

/** Form of everything that may be set. */
export function settingsPage(entered: Entered): EntryPage {
  const { file } = entered.document;
  const { steadyingWindRule, ...settings } = file.settings ?? {};
  const rule = steadyingWindRule === undefined ? {} : { steadyingWindRule: String(steadyingWindRule) };
  const texts = textsOf(SETTINGS_FIELDS, { ...settings, ...rule });
  return entryPage(entered, {
    ...HEAD,
    title: 'Settings',
    action: '/passage/settings',
    fields: withDefaults(SETTINGS_FIELDS, texts, settingsDefaults(file)),
    texts,
    place: 'settings',
  });
}

/** Form of the watchkeeper: sleeps, pace, and the lines below which nothing is planned. */
export function watchkeeperPage(entered: Entered): EntryPage {
  const { file } = entered.document;
  const sleeps = file.watchkeeper?.sleeps ?? [];
  const rows = sleepFields(sleeps.length, entered.refused?.texts ?? new Map<string, string>());
  const fields = [...rows, ...WATCHKEEPER_FIELDS];
  const texts = textsOf(fields, shownWatchkeeper(file));
  return entryPage(watchkeeperEntered(entered, rows, texts), {
    ...HEAD,
    title: 'Watchkeeper',
    action: '/passage/watchkeeper',
    fields: withDefaults(fields, texts, watchkeeperDefaults(file)),
    texts,
    place: 'watchkeeper',
    note: sleeps.length === 0 ? 'No sleep is entered: the usual nights before the departure are taken (default).' : '',
  });
}

/** Problems at their rows; sleeps that were changed here and by someone else stay whole, as they were entered. */
function watchkeeperEntered(entered: Entered, rows: readonly EntryField[], now: Texts): Entered {
  if (entered.refused === null) return entered;
  const { texts, problems, was = null } = entered.refused;
  const names = rows.map(({ name }) => name);
  const differs = (one: Texts, other: Texts): boolean =>
    names.some((name) => (one.get(name)?.trim() ?? '') !== (other.get(name) ?? ''));
  const isOfBoth = was !== null && differs(texts, was) && differs(now, was);
  const asNew = isOfBoth ? new Map([...was, ...names.map((name) => [name, ''] as const)]) : was;
  return { ...entered, refused: { ...entered.refused, problems: atRows(problems, texts), was: asNew } };
}
