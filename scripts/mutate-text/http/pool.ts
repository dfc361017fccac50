/** Requests a browser would send: every page that is linked, and every form on them as it is shown. */

export interface Asked {
  readonly method: 'GET' | 'POST';
  readonly path: string;
  /** Of the form or of the address, in order. */
  readonly fields: readonly (readonly [name: string, value: string])[];
  readonly kind: 'page' | 'form' | 'upload';
}

const MOST_PAGES_COUNT = 160;
/** Pages that differ by a number or a name only. */
const MOST_OF_A_SHAPE = 3;
/** It would ask other machines for forecasts. */
const NOT_SENT = /^\/forecast\/fetch/;

const decoded = (text: string): string =>
  text
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');

const attribute = (tag: string, name: string): string | null => {
  const found = new RegExp(`\\s${name}="([^"]*)"`).exec(tag)?.[1];
  return found === undefined ? null : decoded(found);
};

/** Follows links from the first page; always the same for a new store. */
export async function readPool(port: number): Promise<readonly Asked[]> {
  const waiting = [
    '/',
    '/messages',
    '/new',
    '/document',
    '/log',
    '/plans',
    '/display',
    '/forecast',
    '/plan/making',
    '/locker.csv',
  ];
  const seen = new Set(waiting);
  const shapes = new Map<string, number>();
  const asked = new Map<string, Asked>();
  while (waiting.length > 0 && asked.size < 1000 && shapes.size < MOST_PAGES_COUNT) {
    const path = waiting.shift() ?? '/';
    const shape = path.replaceAll(/=[^&]*/g, '=').replaceAll(/\d+/g, '0');
    const count = (shapes.get(shape) ?? 0) + 1;
    if (count > MOST_OF_A_SHAPE) continue;
    shapes.set(shape, count);
    // One after the other: the order decides which tokens forms carry.
    // oxlint-disable-next-line no-await-in-loop
    const page = await textOf(port, path);
    const address = new URL(path, 'http://a');
    asked.set(`GET ${path}`, {
      method: 'GET',
      path: address.pathname,
      fields: [...address.searchParams],
      kind: 'page',
    });
    for (const form of formsOn(page, address.pathname))
      asked.set(`${form.method} ${form.path} ${form.fields.map(([name]) => name).join()}`, form);
    for (const link of linksOn(page, path)) if (!seen.has(link)) waiting.push(link);
    for (const link of linksOn(page, path)) seen.add(link);
  }
  return [...asked.values()].filter(({ path }) => !NOT_SENT.test(path));
}

async function textOf(port: number, path: string): Promise<string> {
  const response = await fetch(`http://127.0.0.1:${port}${path}`);
  const text = await response.text();
  return response.headers.get('content-type')?.startsWith('text/html') === true ? text : '';
}

const linksOn = (page: string, from: string): readonly string[] =>
  [...page.matchAll(/\s(?:href|hx-get)="([^"]*)"/g)]
    .map(([, address = '']) => new URL(decoded(address), `http://a${from}`))
    .filter(({ origin }) => origin === 'http://a')
    .map(({ pathname, search }) => pathname + search);

function formsOn(page: string, pathname: string): Asked[] {
  return [...page.matchAll(/<form\b([^>]*)>([\s\S]*?)<\/form>/g)].flatMap(([, tag = '', inside = '']) => {
    const buttons = [...inside.matchAll(/<button\b[^>]*>/g)].map(([button]) => button);
    const actions = [
      attribute(` ${tag}`, 'action') ?? pathname,
      ...buttons.flatMap((button) => attribute(button, 'formaction') ?? []),
    ];
    const pressed = buttons.flatMap((button): [string, string][] => {
      const name = attribute(button, 'name');
      return name === null ? [] : [[name, attribute(button, 'value') ?? '']];
    });
    const kind = / enctype="multipart/.test(tag) ? 'upload' : 'form';
    const method = / method="post"/i.test(tag) ? 'POST' : 'GET';
    return actions.map((action): Asked => {
      const address = new URL(action, `http://a${pathname}`);
      return {
        method,
        path: address.pathname,
        fields: [...address.searchParams, ...fieldsIn(inside), ...pressed.slice(0, 1)],
        kind,
      };
    });
  });
}

function fieldsIn(inside: string): [string, string][] {
  const inputs = [...inside.matchAll(/<input\b[^>]*>/g)].flatMap(([tag]): [string, string][] => {
    const [name, type] = [attribute(tag, 'name'), attribute(tag, 'type')];
    const isLeft = (type === 'checkbox' || type === 'radio') && !/\schecked/.test(tag);
    return name === null || isLeft ? [] : [[name, attribute(tag, 'value') ?? (type === 'checkbox' ? 'on' : '')]];
  });
  const texts = [...inside.matchAll(/<textarea\b([^>]*)>([\s\S]*?)<\/textarea>/g)].map(
    ([, tag = '', text = '']): [string, string] => [attribute(` ${tag}`, 'name') ?? '', decoded(text)],
  );
  const choices = [...inside.matchAll(/<select\b([^>]*)>([\s\S]*?)<\/select>/g)].map(
    ([, tag = '', options = '']): [string, string] => {
      const values = [...options.matchAll(/<option\b([^>]*)>/g)].map(([, option = '']) => ` ${option}`);
      const chosen = values.find((option) => option.includes(' selected')) ?? values[0] ?? '';
      return [attribute(` ${tag}`, 'name') ?? '', attribute(chosen, 'value') ?? ''];
    },
  );
  return [...inputs, ...texts, ...choices].filter(([name]) => name !== '');
}
