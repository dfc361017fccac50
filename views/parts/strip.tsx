import type { JSX } from 'preact';
import type { KeyEntry, StripModel } from '../../server/presenters/strip-model.ts';
import { DeskStrip } from '../charts/desk-strip.tsx';
import { PhoneStrip } from '../charts/phone-strip.tsx';
import { FiguresTable } from './figures-table.tsx';
import { HourReadingPart } from './hour-reading.tsx';

/** The hours ahead as a picture, its key, and the same in figures. */
export function StripPart({ strip }: { strip: StripModel }): JSX.Element {
  return (
    <section class="hours" aria-labelledby="hours-title">
      <h2 id="hours-title">{strip.title}</h2>
      <p class="subtitle">
        {strip.subtitle}
        {strip.screenHint !== undefined && <span class="screen-hint"> {strip.screenHint}</span>}
      </p>
      <DeskStrip strip={strip} />
      <PhoneStrip strip={strip} />
      {strip.reading !== undefined && <HourReadingPart reading={strip.reading} />}
      <ul class="key" aria-label="Key to the picture">
        {strip.key.map((entry) => (
          <li key={entry.kind}>
            <KeyMark kind={entry.kind} />
            {entry.text}
          </li>
        ))}
      </ul>
      {strip.lookout !== null && <p class="strip-lookout">{strip.lookout}</p>}
      <FiguresTable
        table={strip.table}
        summary="The same in figures, every three hours"
        label="The hours ahead in figures"
      />
    </section>
  );
}

const lineMarks: Partial<Record<KeyEntry['kind'], string>> = {
  median: 'curve median',
  gust: 'curve gust',
  ideal: 'limit ideal',
  caution: 'limit caution',
  'no-go': 'limit no-go',
  chance: 'curve chance',
  'true-wind': 'curve true-wind',
};

const boxMarks: Partial<Record<KeyEntry['kind'], string>> = {
  inner: 'band inner',
  outer: 'band outer',
  window: 'window',
  planned: 'block planned',
  conditional: 'block conditional',
  sleep: 'block sleep',
  unknown: 'unknown',
  'gust-fan': 'band gust',
  pick: 'pick-held',
};

/** The mark of the picture, drawn with the picture's own classes. */
export function KeyMark({ kind }: { kind: KeyEntry['kind'] }): JSX.Element {
  const line = lineMarks[kind];
  return (
    <svg class="key-mark strip-mark" viewBox="0 0 22 12" width="22" height="12" aria-hidden="true">
      {kind === 'gust-fan' && <line class="curve gust" x1="0" y1="6" x2="22" y2="6" />}
      {kind === 'moon' && <path class="moon-mark" d="M0 4H10M12 7H22" />}
      {kind === 'pick' && <line class="pick-start" x1="1" y1="0" x2="1" y2="12" />}
      {kind === 'unknown' && <path class="hatch" d="M1 11L7 1M8 11L14 1M15 11L21 1" />}
      {kind === 'moon' ? null : line === undefined ? (
        <rect class={boxMarks[kind]} x="1" y="1" width="20" height="10" />
      ) : (
        <line class={line} x1="0" y1="6" x2="22" y2="6" />
      )}
    </svg>
  );
}
