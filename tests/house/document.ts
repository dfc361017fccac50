import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';

export const root = resolve(import.meta.dirname, '../..');

export const readDocument = (name: string): string => readFileSync(resolve(root, name), 'utf8');

/** Text of a section without its heading, up to the next heading of the same or a higher level. */
export function sectionOf(markdown: string, heading: string): string {
  const lines = markdown.split('\n');
  const start = lines.findIndex((line) => /^#+ /.test(line) && line.replace(/^#+ /, '') === heading);
  if (start < 0) throw new Error(`there is no heading "${heading}"`);
  const level = (lines[start] ?? '').indexOf(' ');
  const end = lines.findIndex((line, i) => i > start && /^#+ /.test(line) && line.indexOf(' ') <= level);
  return lines.slice(start + 1, end < 0 ? undefined : end).join('\n');
}

/** Cells of the table rows of a text, header and rule left out. */
export function tableRows(markdown: string): readonly (readonly string[])[] {
  const rows = markdown.split('\n').map((line) => (line.trimStart().startsWith('|') ? cellsOf(line) : null));
  return rows.flatMap((cells, i) => {
    const isHeader = rows[i + 1]?.every((cell) => /^:?-+:?$/.test(cell));
    const isRule = (cells ?? []).every((cell) => /^:?-+:?$/.test(cell));
    return cells === null || isHeader || isRule ? [] : [cells];
  });
}

function cellsOf(line: string): string[] {
  return line
    .trim()
    .replaceAll('\\|', '\u0000')
    .slice(1, -1)
    .split('|')
    .map((cell) => cell.replaceAll('\u0000', '|').trim());
}

/** Words in backticks. */
export const codesIn = (text: string): readonly string[] =>
  [...text.matchAll(/`([^`\n]+)`/g)].map(([, word]) => word ?? '');

/** Commands in the fenced `sh` blocks of a document. */
export const shellLines = (markdown: string): readonly string[] =>
  [...markdown.matchAll(/^```sh\n([\s\S]*?)^```$/gm)].flatMap(([, block = '']) =>
    block
      .split('\n')
      .map((line) => line.replace(/\s+#.*$/, '').trim())
      .filter((line) => line !== ''),
  );

/** How the documents write a command of the program. */
export const PREFIX = 'npx --no-install slatch ';
