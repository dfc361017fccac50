import { DEFAULT_HANDLINGS, type Handling } from '../../lib/boat/index.ts';
import { DEFAULT_INSTRUMENT_HEIGHT_M } from '../../lib/passage/index.ts';
import { textsOf } from '../entry-forms/index.ts';
import { atHandling, BOAT_FIELDS, handlingFields, handlingIndex, ownHandling } from '../passage-forms/index.ts';
import { handlingHref } from './boat-page.ts';
import { withDefaults } from './default-hints.ts';
import { type Entered, entryPage, type EntryPage } from './entry-page.ts';

const BACK = '/passage/boat';

/** Form of the boat herself. */
export function boatFiguresPage(entered: Entered): EntryPage {
  const texts = textsOf(BOAT_FIELDS, entered.document.file.boat);
  const defaults = new Map([
    ['name', 'The boat'],
    ['instrumentHeightM', String(DEFAULT_INSTRUMENT_HEIGHT_M)],
  ]);
  return entryPage(entered, {
    title: 'The boat',
    action: '/passage/boat/figures',
    backHref: BACK,
    isThere: false,
    fields: withDefaults(BOAT_FIELDS, texts, defaults),
    texts,
    place: 'boat',
  });
}

/** Form of a handling by its id: own figures in the inputs, the usual ones beside them. */
export function handlingPage(id: string, entered: Entered): EntryPage {
  const { file, passage } = entered.document;
  const base = DEFAULT_HANDLINGS.find((usual) => usual.id === id);
  const fields = handlingFields(passage.boat, false);
  const own = ownHandling(file, id);
  const texts = textsOf(fields, own);
  const name = passage.boat.handlings.find((handling) => handling.id === id)?.name ?? id;
  return entryPage(atInputs(entered, id), {
    title: `Handling: ${name}`,
    action: handlingHref(id),
    backHref: `${BACK}#handlings`,
    isThere: own !== undefined,
    fields: base === undefined ? fields : withDefaults(fields, texts, defaultsOf(base)),
    texts,
    place: `boat.handlings[${handlingIndex(file, id)}]`,
    note:
      base === undefined
        ? 'A handling of your own: nothing stands in for what is left empty but speed, drift and time to settle.'
        : 'Empty inputs are as the default has them. Taken out, all of it is the default again.',
  });
}

/** Form of a handling of the user's own. */
export function newHandlingPage(entered: Entered): EntryPage {
  const { file, passage } = entered.document;
  const fields = handlingFields(passage.boat, true);
  const id = entered.refused?.texts.get('id')?.trim() ?? '';
  return entryPage(atInputs(entered, id), {
    title: 'A handling of your own',
    action: '/passage/boat/handlings/new',
    backHref: `${BACK}#handlings`,
    isThere: false,
    fields,
    texts: textsOf(fields, undefined),
    place: `boat.handlings[${file.boat.handlings?.length ?? 0}]`,
  });
}

function defaultsOf({ heading, ...handling }: Handling): ReadonlyMap<string, string> {
  const shown = heading.kind === 'course' ? { heading: 'course' } : { twaDeg: heading.twaDeg };
  const texts = textsOf(handlingFields({ sailStates: [] }, false), { ...handling, ...shown });
  return new Map([...texts].filter(([, text]) => text !== ''));
}

const atInputs = (entered: Entered, id: string): Entered =>
  entered.refused === null
    ? entered
    : {
        ...entered,
        refused: {
          ...entered.refused,
          problems: atHandling(entered.refused.problems, entered.document.file, id),
        },
      };
