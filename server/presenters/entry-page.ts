import type { DamageReport } from '../../lib/sail/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import {
  carried,
  type EntryField,
  groupsOf,
  mergedTexts,
  type MergedTexts,
  problemsBeside,
} from '../entry-forms/index.ts';
import type { Clock } from './clock.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import type { GroupView } from './job-edit-page.ts';
import { versionText } from './notices.ts';

/** The form of one entry: a sail, a tear, a line of the locker, a piece to cut. */
export interface EntryPage {
  readonly kind: 'entry';
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  /** Hidden fields besides: what the form showed, and what else it needs to find its entry again. */
  readonly hidden: readonly (readonly [name: string, value: string])[];
  readonly title: string;
  readonly action: string;
  readonly backHref: string;
  /** It is there already, so it can be taken out. */
  readonly isThere: boolean;
  /** Asked before it is taken out with what belongs to it; empty: nothing is asked. */
  readonly removalAsked: string;
  /** Said above it; empty: nothing. */
  readonly note: string;
  /** What is wrong at its inputs, each leading there. */
  readonly wrong: readonly { readonly inputId: string; readonly text: string }[];
  readonly sections: readonly { readonly title: string; readonly groups: readonly GroupView[] }[];
  /** Problems of no input. */
  readonly problems: readonly Problem[];
  readonly drawing: SailPicture | null;
  /** The drawing shows what is entered: one is taken there. */
  readonly isDrawn: boolean;
  /** Its other button draws what is entered. */
  readonly canDraw: boolean;
}

/** A sail to draw, and the whole drawing in sentences. */
export interface SailPicture {
  readonly title: string;
  readonly report: DamageReport;
  readonly description: string;
}

export interface Entered {
  readonly document: JobDocument;
  readonly nowEpochMs: number;
  /** What was entered and not saved; null: the form as the passage has it. */
  readonly refused: {
    readonly texts: ReadonlyMap<string, string>;
    readonly problems: readonly Problem[];
    readonly version?: string;
    /** What the form showed, where somebody has saved meanwhile. */
    readonly was?: ReadonlyMap<string, string> | null;
  } | null;
}

export interface EntryForm extends Pick<EntryPage, 'title' | 'action' | 'backHref' | 'isThere'> {
  readonly fields: readonly EntryField[];
  /** As the passage has it. */
  readonly texts: ReadonlyMap<string, string>;
  /** Path of the entry in the passage. */
  readonly place: string;
  readonly hidden?: EntryPage['hidden'];
  readonly removalAsked?: string;
  readonly note?: string;
  readonly drawing?: SailPicture | null;
  readonly isDrawn?: boolean;
  readonly canDraw?: boolean;
}

const MERGED =
  'What you entered stands in the form, everything else as it is kept now. Where both were changed, what is kept now stands beside it. Save again to keep what you see.';

/** The page of any entry. */
export function entryPage({ document, nowEpochMs, refused }: Entered, form: EntryForm): EntryPage {
  const { fields, texts: now, place, hidden = [], note = '', ...said } = form;
  const { texts, keptNow, problems, isMerged } = filledIn(refused, now);
  const groups = groupsOf(fields, { texts, problems, place, keptNow });
  const version = versionText(document);
  return {
    kind: 'entry',
    name: document.passage.name,
    clock: documentClock(document.passage, nowEpochMs),
    // A form that was refused is sent again against the state it was made from.
    version: isMerged ? version : (refused?.version ?? version),
    removalAsked: '',
    drawing: null,
    isDrawn: false,
    canDraw: false,
    ...said,
    hidden: [['was', carried(now)], ...hidden],
    note: isMerged ? `${note} ${MERGED}`.trim() : note,
    wrong: wrongInputs(groups),
    sections: sectionsOf(fields, groups),
    problems: problemsBeside(fields, { problems, place }),
  };
}

interface FilledIn extends MergedTexts {
  readonly problems: readonly Problem[];
  readonly isMerged: boolean;
}

/** What the inputs hold: what the passage has, what was entered, or after a conflict the one laid over the other. */
function filledIn(refused: Entered['refused'], now: EntryForm['texts']): FilledIn {
  const keptNow = new Map<string, string>();
  if (refused === null) return { texts: now, keptNow, problems: [], isMerged: false };
  const { texts, problems, was = null } = refused;
  if (was === null) return { texts, keptNow, problems, isMerged: false };
  // What a conflict is about is said above every page.
  return { ...mergedTexts(texts, was, now), problems: [], isMerged: true };
}

const wrongInputs = (groups: readonly GroupView[]): EntryPage['wrong'] =>
  groups.flatMap(({ label, problems, fields: [input] }) =>
    problems.map(({ what }) => ({ inputId: input?.id ?? '', text: `${label}: ${what}` })),
  );

/** Inputs under their headings, in their order. */
function sectionsOf(fields: readonly EntryField[], groups: readonly GroupView[]): EntryPage['sections'] {
  const sections: { title: string; groups: GroupView[] }[] = [];
  for (const [index, group] of groups.entries()) {
    const title = fields[index]?.section ?? '';
    const last = sections.at(-1);
    if (last === undefined || title !== '') sections.push({ title, groups: [group] });
    else last.groups.push(group);
  }
  return sections;
}
