import { renderToString } from 'preact-render-to-string';
import type { DamageReport } from '../lib/sail/index.ts';
import { SailDrawing } from './charts/sail-drawing.tsx';
import { sailLayout } from './charts/sail-layout.ts';

/** A sail drawing by itself: one SVG document with its own style rules (colours written out). */
export function renderSailSvg(
  report: DamageReport,
  { title, description, css }: { title: string; description: string; css: string },
): string {
  return renderToString(
    <SailDrawing layout={sailLayout(report)} idPrefix="sail" title={title} description={description} css={css} />,
  );
}
