import { describe, expect, it } from 'vitest';
import { renderSailSvg } from '../../views/render-sail.tsx';
import { boxesMeet, labelBox } from '../../views/charts/sail-label.ts';
import { sailLayout } from '../../views/charts/sail-layout.ts';
import { assertForAnyReport, MAIN, reportOf } from './sail-cases.ts';

const SEED = 64;

const ends = (d: string): readonly (readonly [number, number])[] =>
  [...d.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);

describe('sailLayout', () => {
  it('any sail and tears: every label inside, none on another', () => {
    assertForAnyReport(SEED, (report) => {
      const { labels, widthPx, heightPx } = sailLayout(report);
      const boxes = labels.map((label) => ({ text: label.text, ...labelBox(label) }));
      const outside = boxes.filter(
        ({ leftPx, rightPx, topPx, bottomPx }) => leftPx < 0 || rightPx > widthPx || topPx < 0 || bottomPx > heightPx,
      );
      const touching = boxes.flatMap((box, index) =>
        boxes.slice(index + 1).flatMap((other) => (boxesMeet(box, other) ? [`${box.text} / ${other.text}`] : [])),
      );
      expect({ outside: outside.map(({ text }) => text), touching }).toEqual({ outside: [], touching: [] });
    });
  });

  it('any tear: drawn as long as it is, at the scale of the bar', () => {
    assertForAnyReport(SEED, (report) => {
      const { paths, pxPerM } = sailLayout(report);
      paths
        .filter(({ kind }) => kind === 'tear')
        .forEach(({ d }, index) => {
          const [first, last] = [ends(d)[0] ?? [0, 0], ends(d).at(-1) ?? [0, 0]];
          const { from, to } = report.tears[index]?.tear.line ?? { from: { xM: 0, yM: 0 }, to: { xM: 0, yM: 0 } };
          const wantedPx = Math.hypot(to.xM - from.xM, to.yM - from.yM) * pxPerM;
          expect(Math.hypot(last[0] - first[0], last[1] - first[1])).toBeCloseTo(wantedPx, 0);
        });
      expect(JSON.stringify(paths)).not.toMatch(/NaN|Infinity|null/);
    });
  });

  it('the bar of the scale: a metre as long as the luff makes it; no side known: no bar', () => {
    const { paths, pxPerM, labels } = sailLayout(reportOf(MAIN));
    const bar = paths.find(({ kind }) => kind === 'scale')?.d ?? '';
    const outline = ends(paths.find(({ kind }) => kind === 'outline')?.d ?? '');
    const luffPx = Math.max(...outline.map(([, y]) => y)) - Math.min(...outline.map(([, y]) => y));
    expect(luffPx / 15).toBeCloseTo(pxPerM, 1);
    expect(Number(/H([\d.]+)/.exec(bar)?.[1]) - 8).toBeCloseTo(pxPerM, 6);
    expect(labels.some(({ text }) => text === '1 m')).toBe(true);
    const none = sailLayout(reportOf({ kind: 'mainsail', cut: 'cross-cut', panelCount: 9 }));
    expect(none.paths.some(({ kind }) => kind === 'scale')).toBe(false);
    expect(none.labels.some(({ text }) => text.startsWith('not to scale'))).toBe(true);
  });

  it('twelve panels, five battens, three reefs: each named from both ends', () => {
    const texts = sailLayout(reportOf(MAIN, [{ counted: { panel: 6 }, lengthM: 0.9, chordShare: 0.5 }])).labels.map(
      ({ text }) => text,
    );
    for (const text of ['6↑ 7↓', '1↑ 12↓', '12↑ 1↓', 'batten 3↓ 3↑', 'batten 1↓ 5↑', 'reef 1↑ 3↓', '0.9 m'])
      expect(texts).toContain(text);
    for (const word of ['luff', 'leech', 'foot', 'head', 'tack', 'clew']) expect(texts).toContain(word);
  });
});

describe('renderSailSvg', () => {
  it('has title and description, and says nothing unescaped', () => {
    const report = reportOf({ ...MAIN, name: 'old <b>& "new"' }, [{ counted: { panel: 6 }, lengthM: 0.9 }]);
    const svg = renderSailSvg(report, { title: 'a <i>', description: 'b & c', css: '.x{fill:#000}' });
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
    expect(svg).toContain('<title id="sail-title">a &lt;i></title>');
    expect(svg).toContain('<desc id="sail-desc">b &amp; c</desc>');
  });
});
