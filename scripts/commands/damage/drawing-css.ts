import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';

export type DrawingStyle = 'day' | 'night' | 'print';

const sheet = (name: string): string =>
  readFileSync(resolve(import.meta.dirname, '../../../views/static', name), 'utf8');

/** Values of the colours of one style: those of print stand over those of the day. */
function tokensOf(style: DrawingStyle): ReadonlyMap<string, string> {
  const day = tokensIn(sheet('tokens.css'), style === 'night' ? 'html.night' : 'html.day');
  return style === 'print' ? new Map([...day, ...tokensIn(sheet('print.css'), 'html.night')]) : day;
}

function tokensIn(css: string, selector: string): ReadonlyMap<string, string> {
  const start = css.indexOf(`${selector} {`);
  const rules = css.slice(start, css.indexOf('}', start));
  return new Map([...rules.matchAll(/--([\w-]+):\s*([^;]+);/g)].map(([, name = '', value = '']) => [name, value]));
}

/** The rules of a sail drawing with its colours written out, so that it can stand alone. */
export function drawingCss(style: DrawingStyle): string {
  const tokens = tokensOf(style);
  return sheet('sail.css').replace(/var\(--([\w-]+)\)/g, (whole, name: string) => tokens.get(name) ?? whole);
}
