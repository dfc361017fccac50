import type { PassageFile } from '../../lib/passage/index.ts';
import type { SailFile } from '../../lib/sail/index.ts';
import {
  battenFields,
  battenTexts,
  type Place,
  reportOf,
  SAIL_FIELDS,
  sailPlace,
  TEAR_FIELDS,
  TEARS_THERE,
  type TearPlace,
} from '../damage-forms/index.ts';
import { carried, textsOf } from '../entry-forms/index.ts';
import { sailPicture, sailTitle } from './damage-page.ts';
import { type Entered, type EntryForm, type EntryPage, entryPage, type SailPicture } from './entry-page.ts';

/** What a form of the page Damage is shown with, besides what was entered. */
export interface Drawn {
  /** The passage as it would be with what is entered; null: as it is. */
  readonly file: PassageFile | null;
  readonly note: string;
}

const NOTHING_DRAWN: Drawn = { file: null, note: '' };
const NEW_SAIL = { kind: 'mainsail', cut: 'cross-cut' };

/** What stands at a place of a list, and the index of its entry, that of a new one behind the last. */
function at<T>(list: readonly T[], place: Place): { readonly found: T | undefined; readonly index: number } {
  const found = place === 'new' ? undefined : list[place];
  return { found, index: found === undefined || place === 'new' ? list.length : place };
}

/** Form of a sail. */
export function sailPage(place: Place, entered: Entered, drawn: Drawn = NOTHING_DRAWN): EntryPage {
  const { file } = entered.document;
  const { found, index } = at(file.sails ?? [], place);
  const asked = entered.refused?.problems.find(({ code }) => code === TEARS_THERE);
  const texts = sailTexts(found?.sail);
  return entryPage(withoutProblem(entered, TEARS_THERE), {
    fields: withBattens(new Map([...texts, ...(entered.refused?.texts ?? [])])),
    texts,
    place: `${sailPlace(index)}.sail`,
    ...(found === undefined
      ? { title: 'A sail', action: '/damage/new', backHref: '/damage', isThere: false }
      : {
          title: sailTitle(found.sail),
          action: `/damage/${index}`,
          backHref: `/damage#sail-${index}`,
          isThere: true,
        }),
    removalAsked: asked?.what ?? '',
    ...pictured(file, index, drawn),
  });
}

const sailTexts = (sail: SailFile | undefined): ReadonlyMap<string, string> =>
  new Map([...textsOf(SAIL_FIELDS, sail ?? NEW_SAIL), ...(sail === undefined ? [] : battenTexts(sail))]);

/** With the states of as many battens as are shown or entered, before the reefs. */
const withBattens = (texts: ReadonlyMap<string, string>): typeof SAIL_FIELDS => {
  const reefs = SAIL_FIELDS.findIndex(({ name }) => name === 'reefs.count');
  return SAIL_FIELDS.toSpliced(reefs, 0, ...battenFields(texts));
};

/** Form of a tear; the drawing shows the sail it is counted on. */
export function tearPage({ sail, tear }: TearPlace, entered: Entered, drawn: Drawn = NOTHING_DRAWN): EntryPage {
  const { file } = entered.document;
  const on = file.sails?.[sail];
  const { found, index } = at(on?.damage ?? [], tear);
  const name = on === undefined ? '' : `: ${sailTitle(on.sail)}`;
  const path = `/damage/${sail}/tears`;
  return entryPage(entered, {
    fields: TEAR_FIELDS,
    texts: textsOf(TEAR_FIELDS, found),
    place: `${sailPlace(sail)}.damage[${index}]`,
    ...(found === undefined
      ? { title: `A tear${name}`, action: `${path}/new`, isThere: false }
      : { title: `Tear ${found.id ?? index + 1}${name}`, action: `${path}/${index}`, isThere: true }),
    backHref: `/damage#sail-${sail}`,
    hidden: [['sail', carried(textsOf(SAIL_FIELDS, on?.sail))]],
    ...pictured(file, sail, drawn),
  });
}

const pictured = (
  before: PassageFile,
  index: number,
  { file, note }: Drawn,
): Pick<EntryForm, 'note' | 'isDrawn' | 'canDraw'> & { readonly drawing: SailPicture | null } => {
  const report = reportOf(file ?? before, index);
  return { note, isDrawn: file !== null, canDraw: true, drawing: report === null ? null : sailPicture(report) };
};

/** Asked as a question of its own. */
const withoutProblem = (entered: Entered, code: string): Entered =>
  entered.refused === null
    ? entered
    : {
        ...entered,
        refused: { ...entered.refused, problems: entered.refused.problems.filter((one) => one.code !== code) },
      };
