import type { NotRight } from '../access/index.ts';

/** What a browser is told of the access key. */
export type AccessShown =
  /** This server asks for none. */
  | { readonly kind: 'none' }
  /** It is in, and can leave. */
  | { readonly kind: 'in' }
  /** `said`: the key given before, that was not right; null: none was. */
  | { readonly kind: 'ask'; readonly toHref: string; readonly said: NotRight | null }
  /** A form came without the key. */
  | { readonly kind: 'not-sent'; readonly toHref: string };

export interface AccessPage {
  readonly kind: AccessShown['kind'];
  readonly title: string;
  readonly texts: readonly string[];
  /** What was wrong with the key given; empty: nothing. */
  readonly wrong: string;
  /** Where the key leads to, or the page of a form that was not sent. */
  readonly toHref: string;
}

export const accessPage = (shown: AccessShown): AccessPage => {
  const { kind } = shown;
  return { kind, ...TEXTS[kind], wrong: kind === 'ask' ? wrongText(shown.said) : '', toHref: hrefOf(shown) };
};

const TEXTS: Readonly<Record<AccessShown['kind'], Pick<AccessPage, 'title' | 'texts'>>> = {
  none: {
    title: 'No key is asked for',
    texts: ['This program answers only on its own machine, and was started without an access key.'],
  },
  in: {
    title: 'You are signed in',
    texts: ['On this browser, for seven days at most, or until nobody used it for a day.'],
  },
  ask: {
    title: 'Access key',
    texts: [
      'It stands in the file that was named when the program was started. Capitals, spaces and hyphens do not matter.',
    ],
  },
  'not-sent': {
    title: 'Nothing was saved',
    texts: [
      'The form came without the access key: this browser is not signed in, or no longer.',
      'What you entered is not lost: give the key on the page that opens beside this one, come back, and load this page again. The browser asks whether to send the form once more; then it is saved.',
    ],
  },
};

const hrefOf = (shown: AccessShown): string => ('toHref' in shown ? shown.toHref : '/');

function wrongText(said: NotRight | null): string {
  if (said === null) return '';
  return said.kind === 'wrong'
    ? 'That is not the key. Read it once more, letter by letter.'
    : `Too many wrong keys came. The next one is looked at in ${waitText(said.waitMs)}.`;
}

/** Whole seconds to wait, for `Retry-After` (RFC 9110 §10.2.3). */
export const waitS = (waitMs: number): number => Math.ceil(waitMs / 1000);

const waitText = (waitMs: number): string =>
  waitMs <= 90_000 ? `${waitS(waitMs)} s` : `${Math.ceil(waitMs / 60_000)} min`;
