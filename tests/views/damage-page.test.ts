import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sailPage, tearPage } from '../../server/presenters/damage-entry-page.ts';
import { damagePage, type DamagePages } from '../../server/presenters/damage-page.ts';
import type { JobDocument } from '../../server/presenters/job-document.ts';
import { renderDamage } from '../../views/render.tsx';
import { documentWith } from '../presenters/jobs-document.ts';

const html = (page: DamagePages): string => renderDamage(page, { extent: 'document', style: 'day' });
const listHtml = (document: JobDocument): string => html(damagePage(document, 0));
const textOf = (page: string): string => page.replaceAll(/<[^>]*>/g, ' ').replaceAll(/\s+/g, ' ');

const main = {
  sail: {
    name: 'Main',
    kind: 'mainsail',
    cut: 'cross-cut',
    luffM: 15,
    footM: 5,
    panelCount: 12,
    cloth: 'woven-heavy',
    battens: { count: 5, states: [{ batten: 1, from: 'foot', state: 'missing' }] },
    reefs: { count: 3, luffHeightsM: [2, 4.5, 7] },
  },
  damage: [
    { id: 'low', counted: { panel: 2 }, distanceFromLeechM: 1, lengthM: 0.4, direction: 'along-the-load' },
    { id: 'mid', counted: { panel: 5 }, chordShare: 0.5, lengthM: 0.4, direction: 'along-the-load' },
  ],
};
const radial = {
  sail: { kind: 'headsail', cut: 'radial', panelCount: 12, gores: { tack: 4, clew: 4, head: 4 } },
  damage: [{ counted: { panel: 3 }, lengthM: 0.3 }],
};
const jobs = [
  { id: 'drop', from: 'drop-main' },
  { id: 'stitch', from: 'stitch-tear', after: ['drop'], lengthM: 1 },
  { id: 'hoist', from: 'hoist-main', after: ['drop', 'stitch'] },
];
const document = documentWith(jobs, { sails: [main, radial] });
const entered = { document, nowEpochMs: 0, refused: null };
const problem = {
  code: 'x',
  where: 'passage, sails[0].damage[0].lengthM',
  what: 'Wrong.',
  expected: 'right',
  remedy: 'Mend it.',
};
const texts = new Map([['lengthM', 'long']]);
const everyPage: readonly (readonly [string, string])[] = [
  ['sails', listHtml(document)],
  ['sails, no jobs', listHtml(documentWith([], { sails: [main, radial] }))],
  ['no sail', listHtml(documentWith(jobs))],
  ['form of a sail', html(sailPage(0, entered))],
  ['form of a radial sail', html(sailPage(1, entered))],
  ['form of a new sail', html(sailPage('new', entered))],
  ['form of a tear', html(tearPage({ sail: 0, tear: 1 }, entered))],
  ['form of a new tear', html(tearPage({ sail: 1, tear: 'new' }, entered))],
  [
    'form of a tear, refused',
    html(
      tearPage(
        { sail: 0, tear: 0 },
        { ...entered, refused: { texts, problems: [problem, { ...problem, where: 'y' }] } },
      ),
    ),
  ],
  [
    'form of a tear after a conflict',
    html(
      tearPage(
        { sail: 0, tear: 0 },
        { ...entered, refused: { texts, problems: [], was: new Map([['lengthM', '1']]) } },
      ),
    ),
  ],
];

describe.each(everyPage)('page: %s', (_, page) => {
  it('one main, one first heading, nothing the content policy would drop', () => {
    expect(page.match(/<main /g)).toHaveLength(1);
    expect(page.match(/<h1/g)).toHaveLength(1);
    expect(page).not.toMatch(/ style="| on\w+="|<style|<script>|javascript:/);
  });

  it('nothing that should have been a number or a word', () => {
    expect(page).not.toMatch(/NaN|undefined|Infinity|\[object|>null</);
  });

  it('ids are not repeated; labels, descriptions and links within the page have their targets', () => {
    const ids = [...page.matchAll(/ id="([^"]+)"/g)].map(([, id = '']) => id);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
    const wanted = [...page.matchAll(/ (?:aria-labelledby|aria-describedby|for)="([^"]+)"| href="#([^"]+)"/g)]
      .map(([, named, linked]) => named ?? linked ?? '')
      .flatMap((names) => names.split(' '));
    expect(wanted.filter((id) => !ids.includes(id))).toEqual([]);
  });

  it('every form that changes the passage says which state of it', () => {
    const forms = [...page.matchAll(/<form[^>]*action="(?!\/style)[^"]*"[^>]*>(.*?)<\/form>/gs)].map(
      ([, inside = '']) => inside,
    );
    expect(forms.filter((inside) => !/name="version" value="\d+\.\d+"/.test(inside))).toEqual([]);
  });
});

describe('a form', () => {
  it.each(everyPage.filter(([name]) => name.startsWith('form')))(
    '%s: its first button saves, for it is the one that Enter presses',
    (_, page) => {
      expect(/class="save-bar".*?<button[^>]*>([^<]*)/s.exec(page)?.[1]).toBe('Save');
    },
  );

  it('refused: what was typed, what is wrong at its input and linked from above, the rest beside', () => {
    const page = everyPage.find(([name]) => name === 'form of a tear, refused')?.[1] ?? '';
    expect(page).toContain('value="long"');
    expect(page).toContain('<a href="#f-lengthM">Length: Wrong.</a>');
    expect(page.match(/class="problem-what"/g)).toHaveLength(1);
  });
});

describe('the list', () => {
  it('what to do first stands before the drawing and the findings, and the deepest reef answers all of it', () => {
    const page = listHtml(document);
    // Reefs at 2, 4.5 and 7 m of a sail with panels of a twelfth of the leech: panel 2 (1.25 … 2.5 m) needs reef 2, panel 5
    // (5 … 6.25 m) reef 3, by hand.
    expect(page.indexOf('class="first-answer"')).toBeLessThan(page.indexOf('class="sail-drawing"'));
    const first = textOf(/class="first-answer">(.*?)<\/div>/s.exec(page)?.[1] ?? '');
    expect(first).toMatch(/A, low: First answer.* reef 2 .*B, mid: First answer.* reef 3 .*Batten 5 of 5/);
    expect(first).toContain('All of it together: reef 3, or deeper.');
  });

  it('one of the answers not sure: nothing is said of all of it together', () => {
    const loose = { ...main, sail: { ...main.sail, reefs: { count: 3 } } };
    const page = textOf(listHtml(documentWith(jobs, { sails: [loose] })));
    expect(page).toContain('once looked at');
    expect(page).not.toContain('All of it together');
  });

  it('jobs of a tear: their minutes, and what they stand between', () => {
    const page = textOf(listHtml(document));
    expect(page).toMatch(/On deck \d+ \(\d+\) min, below \d+ \(\d+\) min, the patch among them/);
    expect(page).toMatch(/They come after “[^”]*”, and “[^”]*” waits for them\./);
    expect(page).toContain('They do not take the sail down');
  });
});

describe('escaping', () => {
  it('any text of the passage: no element comes of it', () => {
    const mark = '<b data-bad>"&\'';
    fc.assert(
      fc.property(fc.stringMatching(/^[ -~]{0,40}$/), (text) => {
        const odd = `${mark}${text}`.trim();
        const of = documentWith([{ ...jobs[0], name: odd }, { ...jobs[1], name: odd }, jobs[2]], {
          sails: [{ ...main, sail: { ...main.sail, name: odd, cloth: odd } }],
        });
        const all = listHtml(of) + html(sailPage(0, { ...entered, document: of }));
        expect(all).not.toContain('<b data-bad>');
        expect(all).toContain('&lt;b data-bad>');
      }),
      { seed: 5, numRuns: 10 },
    );
  });
});
