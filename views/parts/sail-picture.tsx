import type { JSX } from 'preact';
import type { SailPicture } from '../../server/presenters/entry-page.ts';
import { SailDrawing } from '../charts/sail-drawing.tsx';
import { sailLayout } from '../charts/sail-layout.ts';

/** The drawing of a sail on a page. `idPrefix` begins its ids: one for each drawing of a page. */
export const SailPicturePart = ({ picture, idPrefix }: { picture: SailPicture; idPrefix: string }): JSX.Element => (
  <SailDrawing
    layout={sailLayout(picture.report)}
    idPrefix={idPrefix}
    title={picture.title}
    description={picture.description}
  />
);
