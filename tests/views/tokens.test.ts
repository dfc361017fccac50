import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PRINT_SHEET, STYLE_SHEETS } from '../../views/style-sheets.ts';
import { contrastRatio, tokensOf } from './contrast.ts';

const staticFile = (name: string): string =>
  readFileSync(resolve(import.meta.dirname, '../../views/static', name), 'utf8');

// WCAG 2.2, success criteria 1.4.3 (text, AA) and 1.4.11 (graphics and controls).
const TEXT_LEAST = 4.5;
const GRAPHICS_LEAST = 3;

const textPairs = [
  ['ink', 'paper'],
  ['ink', 'card'],
  ['ink', 'chosen'],
  ['ink', 'wash'],
  ['ink2', 'paper'],
  ['ink2', 'card'],
  ['ink2', 'chosen'],
  ['ink2', 'wash'],
  ['accent', 'paper'],
  ['card', 'ink'],
  ['on-day', 'light-day'],
  ['on-night', 'light-night'],
] as const;

const graphicPairs = [
  ['sea', 'paper'],
  ['sea', 'sea-mid'],
  ['sea', 'sea-pale'],
  ['sea', 'wash'],
  ['sea', 'tired'],
  ['accent', 'paper'],
  ['accent', 'wash'],
  ['accent', 'sea-pale'],
  ['sea', 'sleep'],
  ['accent', 'sleep'],
  ['ink2', 'sleep'],
  ['sleep-edge', 'paper'],
  ['sleep-edge', 'wash'],
  ['ink', 'paper'],
] as const;

describe('contrastRatio', () => {
  it.each([
    // WCAG 2.2 gives 21:1 for black on white as the range’s end.
    ['#000', '#ffffff', 21],
    ['#ffffff', '#ffffff', 1],
    // W3C Understanding SC 1.4.3 takes #767676 as the lightest grey with 4.5:1 on white.
    ['#767676', '#ffffff', 4.54],
  ])('%s on %s: %d', (one, other, ratio) => {
    expect(Math.abs(contrastRatio(one, other) - ratio)).toBeLessThan(0.01);
  });
});

describe.each(['html.day', 'html.night'])('tokens of %s', (selector) => {
  const tokens = tokensOf(staticFile('tokens.css'), selector);
  const hex = (name: string): string => {
    const found = tokens.get(name);
    if (found === undefined) throw new Error(`no token ${name} in ${selector}`);
    return found;
  };

  it.each(textPairs)('text %s on %s: AA', (text, ground) => {
    expect(contrastRatio(hex(text), hex(ground))).toBeGreaterThanOrEqual(TEXT_LEAST);
  });

  it.each(graphicPairs)('line %s on %s: three to one', (line, ground) => {
    expect(contrastRatio(hex(line), hex(ground))).toBeGreaterThanOrEqual(GRAPHICS_LEAST);
  });

  it('no green: in no colour is green the strongest channel by more than a shade', () => {
    for (const [name, colour] of tokens) {
      const [red = 0, green = 0, blue = 0] =
        (colour.length === 7 ? colour.slice(1).match(/../g) : null)?.map((pair) => Number.parseInt(pair, 16)) ?? [];
      expect(green - Math.max(red, blue), `${name} ${colour}`).toBeLessThanOrEqual(4);
    }
  });
});

describe('style sheets', () => {
  const sheets = [...STYLE_SHEETS, PRINT_SHEET].map(staticFile).join('\n');

  it('every file is in the order in which they count, once', () => {
    const names = readdirSync(resolve(import.meta.dirname, '../../views/static')).filter((name) =>
      name.endsWith('.css'),
    );
    expect([...STYLE_SHEETS, PRINT_SHEET].toSorted()).toEqual(names.toSorted());
  });

  it('nothing is fetched from elsewhere', () => {
    expect(sheets).not.toMatch(/url\((?!\/fonts\/|#)/);
    expect(sheets).not.toMatch(/@import|https?:/);
  });

  it('every token used is set', () => {
    const used = new Set([...sheets.matchAll(/var\(--([\w-]+)\)/g)].map(([, name = '']) => name));
    const set = tokensOf(staticFile('tokens.css'), 'html.day');
    expect([...used].filter((name) => !set.has(name))).toEqual([]);
  });
});
