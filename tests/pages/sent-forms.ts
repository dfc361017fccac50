/** What pages show, and what a browser without script would send of their forms. */

const decoded = (text: string): string =>
  text.replaceAll('&quot;', '"').replaceAll('&#39;', "'").replaceAll('&amp;', '&');
/** The words of a page. */
export const textOf = (page: string): string => decoded(page.replaceAll(/<[^>]*>/g, ' ')).replaceAll(/\s+/g, ' ');

/** What a form shows, as a browser would send it. */
export function fieldsOf(page: string): Record<string, string> {
  const inputs = [...page.matchAll(/<input[^>]*>/g)].map(([tag]): [string, string] => [
    /name="([^"]*)"/.exec(tag)?.[1] ?? '',
    decoded(/value="([^"]*)"/.exec(tag)?.[1] ?? ''),
  ]);
  const selects = [...page.matchAll(/<select[^>]*name="([^"]*)"[^>]*>(.*?)<\/select>/gs)].map(
    ([, name = '', options = '']): [string, string] => [
      name,
      decoded(/<option value="([^"]*)" selected/.exec(options)?.[1] ?? ''),
    ],
  );
  return Object.fromEntries([...inputs, ...selects]);
}
