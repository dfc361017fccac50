import {
  assessDamage,
  findingTexts,
  reportTexts,
  stitchText,
  tearTitle,
  type DamageReport,
  type TearReport,
} from '../../lib/sail/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { BATTEN_STATES, SAIL_FIELDS, sailPlace, TEAR_FIELDS } from '../damage-forms/index.ts';
import { type EntryField, field, groupsOf, problemsBeside, textsOf } from '../entry-forms/index.ts';
import type { Clock } from './clock.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import type { GroupView } from './job-edit-page.ts';
import { versionText } from './notices.ts';

export type DamagePages = DamagePage | EntryPage | { readonly kind: 'failed'; readonly problems: readonly Problem[] };

/** Every sail with its drawing and what can be said of it. */
export interface DamagePage {
  readonly kind: 'damage';
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  readonly sails: readonly SailView[];
}

export interface SailView {
  readonly index: number;
  readonly title: string;
  readonly report: DamageReport;
  /** The whole drawing in sentences. */
  readonly description: string;
  readonly tears: readonly TearView[];
  /** Of the battens that are not whole, and what was taken as usual. */
  readonly others: readonly string[];
}

export interface TearView {
  readonly index: number;
  readonly title: string;
  readonly texts: readonly string[];
}

/** The form of one entry: a sail, a tear, a line of the locker, a piece to cut. */
export interface EntryPage {
  readonly kind: 'entry';
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  readonly title: string;
  readonly action: string;
  readonly backHref: string;
  /** It is there already, so it can be taken out. */
  readonly isThere: boolean;
  readonly groups: readonly GroupView[];
  /** Problems of no input. */
  readonly problems: readonly Problem[];
}

export function damagePage(document: JobDocument, nowEpochMs: number): DamagePage {
  const { passage } = document;
  return {
    kind: 'damage',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: versionText(document),
    sails: passage.sails.flatMap((one, index) => {
      const report = assessDamage(one, sailPlace(index));
      return report.ok ? [sailView(report.value, index, one.sail.name ?? one.sail.kind)] : [];
    }),
  };
}

function sailView(report: DamageReport, index: number, title: string): SailView {
  const all = reportTexts(report);
  const tears = report.tears.map((tear, k) => ({ index: k, title: tearTitle(tear), texts: tearTexts(tear) }));
  return {
    index,
    title,
    report,
    description: all.flat().join(' '),
    tears,
    others: all.slice(report.tears.length + 1).flat(),
  };
}

/** What to do first stands first: where a reef takes the tear out of use, she is sailed reefed. */
function tearTexts({ findings, stitch }: TearReport): readonly string[] {
  const answers = findings.filter(({ code }) => code === 'tear.first-answer');
  return [
    ...findingTexts(answers),
    ...findingTexts(findings.filter((one) => !answers.includes(one))),
    stitchText(stitch),
  ];
}

interface Entered {
  readonly document: JobDocument;
  readonly nowEpochMs: number;
  /** What was entered and not saved; null: the form as the passage has it. */
  readonly refused: { readonly texts: ReadonlyMap<string, string>; readonly problems: readonly Problem[] } | null;
}

/** Form of a sail; an index behind the last is a new one. */
export function sailPage(index: number, entered: Entered): EntryPage {
  const found = entered.document.file.sails?.[index];
  const battens = battenFields(found?.sail.battens?.count ?? 0);
  const texts = new Map([
    ...textsOf(SAIL_FIELDS, found?.sail ?? NEW_SAIL),
    ...battens.map(({ name }, k): [string, string] => [name, stateOf(found?.sail, k + 1)]),
  ]);
  return entryPage(entered, {
    fields: [...SAIL_FIELDS, ...battens],
    texts,
    place: `${sailPlace(index)}.sail`,
    title: found === undefined ? 'A sail' : (found.sail.name ?? found.sail.kind),
    action: `/damage/${index}`,
    backHref: '/damage',
    isThere: found !== undefined,
  });
}

const NEW_SAIL = { kind: 'mainsail', cut: 'cross-cut' };

const battenFields = (battenCount: number): readonly EntryField[] =>
  Array.from({ length: battenCount }, (_, k) =>
    field(['battens', 'states', k], `Batten ${k + 1} of ${battenCount} from the head`, {
      name: `batten.${k + 1}`,
      kind: 'choice',
      options: BATTEN_STATES,
    }),
  );

type Sail = NonNullable<JobDocument['file']['sails']>[number]['sail'];

function stateOf(sail: Sail | undefined, batten: number): string {
  const count = sail?.battens?.count ?? 0;
  const found = sail?.battens?.states?.find(
    (one) => (one.from === 'foot' ? count + 1 - one.batten : one.batten) === batten,
  );
  return found?.state ?? '';
}

/** Form of a tear; an index behind the last is a new one. */
export function tearPage(at: { sail: number; tear: number }, entered: Entered): EntryPage {
  const found = entered.document.file.sails?.[at.sail]?.damage?.[at.tear];
  return entryPage(entered, {
    fields: TEAR_FIELDS,
    texts: textsOf(TEAR_FIELDS, found),
    place: `${sailPlace(at.sail)}.damage[${at.tear}]`,
    title: found === undefined ? 'A tear' : `Tear ${found.id ?? at.tear + 1}`,
    action: `/damage/${at.sail}/tears/${at.tear}`,
    backHref: '/damage',
    isThere: found !== undefined,
  });
}

export interface EntryForm extends Pick<EntryPage, 'title' | 'action' | 'backHref' | 'isThere'> {
  readonly fields: readonly EntryField[];
  readonly texts: ReadonlyMap<string, string>;
  /** Path of the entry in the passage. */
  readonly place: string;
}

/** The page of any entry. */
export function entryPage({ document, nowEpochMs, refused }: Entered, form: EntryForm): EntryPage {
  const { fields, texts, place, ...said } = form;
  const problems = refused?.problems ?? [];
  return {
    kind: 'entry',
    name: document.passage.name,
    clock: documentClock(document.passage, nowEpochMs),
    version: versionText(document),
    ...said,
    groups: groupsOf(fields, { texts: refused?.texts ?? texts, problems, place }),
    problems: problemsBeside(fields, { problems, place }),
  };
}
