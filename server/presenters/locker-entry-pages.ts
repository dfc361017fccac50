import { type EntryField, foundAgain, textsOf } from '../entry-forms/index.ts';
import { ITEM_FIELDS, ITEM_KNOWN_BY, PIECE_FIELDS, PIECE_KNOWN_BY, shownItem } from '../locker-forms/index.ts';
import { type Entered, entryPage, type EntryPage } from './entry-page.ts';
import { sizeText } from './locker-words.ts';

/** The entry a form is asked for. */
export interface AskedEntry {
  readonly index: number;
  /** It is behind the last. */
  readonly isNew: boolean;
  /** What a new one begins with, by the name of the input. */
  readonly prefilled?: ReadonlyMap<string, string>;
}

/** Form of a line of the locker. */
export function itemPage(asked: AskedEntry, entered: Entered): EntryPage {
  const { file, passage } = entered.document;
  const shown = (file.locker ?? []).map((line) => shownItem(line, passage.settings.shipTimeOffsetMin));
  const { index, note, ...now } = placeNow(asked, entered, {
    entries: shown,
    fields: ITEM_FIELDS,
    knownBy: ITEM_KNOWN_BY,
  });
  const line = passage.locker.items[index];
  const page = entryPage(now.entered, {
    fields: ITEM_FIELDS,
    texts: new Map([...textsOf(ITEM_FIELDS, shown[index]), ...(asked.prefilled ?? [])]),
    place: `locker[${index}]`,
    title:
      line === undefined
        ? 'A new line of the locker'
        : [line.item, sizeText(line)].filter((text) => text !== '').join(', '),
    action: `/locker/items/${line === undefined ? 'new' : index}`,
    backHref: '/locker',
    isThere: line !== undefined,
    note,
  });
  return withInstant(page, 'readyUtc');
}

/** Form of a piece to cut. */
export function piecePage(asked: AskedEntry, entered: Entered): EntryPage {
  const entries = entered.document.file.cutting?.pieces ?? [];
  const { index, note, ...now } = placeNow(asked, entered, { entries, fields: PIECE_FIELDS, knownBy: PIECE_KNOWN_BY });
  const piece = entries[index];
  return entryPage(now.entered, {
    fields: PIECE_FIELDS,
    texts: textsOf(PIECE_FIELDS, piece),
    place: `cutting.pieces[${index}]`,
    title: piece === undefined ? 'A new piece to cut' : `Piece to cut: ${piece.id}`,
    action: `/locker/pieces/${piece === undefined ? 'new' : index}`,
    backHref: '/locker#cutting',
    isThere: piece !== undefined,
    note,
  });
}

interface PlaceNow {
  readonly index: number;
  readonly note: string;
  readonly entered: Entered;
}

interface Entries {
  readonly entries: readonly unknown[];
  readonly fields: readonly EntryField[];
  /** Names of the fields an entry is known by. */
  readonly knownBy: readonly string[];
}

const GONE = 'It was taken out of the passage meanwhile. Saved again, it is added anew.';

/** Where the entry stands, also after somebody has saved meanwhile; one that is gone is offered as a new one. */
function placeNow(asked: AskedEntry, entered: Entered, { entries, fields, knownBy }: Entries): PlaceNow {
  const was = entered.refused?.was ?? null;
  if (entered.refused === null || was === null) return { index: asked.index, note: '', entered };
  const asNew: Entered = { ...entered, refused: { ...entered.refused, was: blankOf(was) } };
  if (asked.isNew) return { index: entries.length, note: '', entered: asNew };
  const index = foundAgain(entries, { fields, was, knownBy, index: asked.index });
  return index === null ? { index: entries.length, note: GONE, entered: asNew } : { index, note: '', entered };
}

/** All that stands in the form counts as entered. */
const blankOf = (was: ReadonlyMap<string, string>): ReadonlyMap<string, string> =>
  new Map([...was.keys()].map((name) => [name, '']));

/** An input whose time is chosen on the ship's clock. */
const withInstant = (page: EntryPage, name: string): EntryPage => ({
  ...page,
  sections: page.sections.map((section) => ({
    ...section,
    groups: section.groups.map((group) => ({
      ...group,
      fields: group.fields.map((field) => (field.name === name ? { ...field, kind: 'instant' } : field)),
    })),
  })),
});
