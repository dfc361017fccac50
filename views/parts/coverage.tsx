import type { JSX } from 'preact';
import type { CoverageMap } from '../../server/presenters/coverage/coverage-map.ts';
import type { CoverageTimes } from '../../server/presenters/coverage/coverage-times.ts';
import type { CoverageView } from '../../server/presenters/coverage/coverage-view.ts';
import { CoverageChart } from '../charts/coverage-chart.tsx';
import { CoverageMapDrawing } from '../charts/coverage-map-drawing.tsx';
import { Hatches } from '../charts/hatch.tsx';

/** How far the forecast reaches along the way: in words, over the sea, and along the hours. */
export const Coverage = ({ coverage }: { coverage: CoverageView }): JSX.Element => (
  <section class="forecast-reach" aria-labelledby="reach-title">
    <h2 id="reach-title">How far it reaches</h2>
    {coverage.sentences.map((sentence) => (
      <p key={sentence}>{sentence}</p>
    ))}
    <Hours times={coverage.times} />
    {coverage.map !== null && <Sea map={coverage.map} />}
  </section>
);

function Hours({ times }: { times: CoverageTimes }): JSX.Element {
  const drawn = {
    times,
    title: 'The forecast along the hours',
    description: 'Bars of the hours each file and each quantity speaks of. The table “What it holds” says the same.',
  };
  return (
    <>
      <h3>In time</h3>
      <CoverageChart {...drawn} where="desk" />
      <CoverageChart {...drawn} where="phone" />
      <ul class="key" aria-label="Key to the hours">
        <Entry text="hours of a file, a tick for each step">
          <>
            <rect class="reach-held" x="1" y="1" width="20" height="10" />
            <path class="reach-steps" d="M6 11V6M11 11V6M16 11V6" />
          </>
        </Entry>
        <Entry text="when the run began">
          <circle class="reach-base" cx="11" cy="6" r="4.5" />
        </Entry>
        <Entry text="known where she will be">
          <rect class="reach-known" x="1" y="2" width="20" height="8" />
        </Entry>
        <Entry text="nothing is said">
          <>
            <Hatches prefix="hours-key" />
            <rect class="reach-gap" x="1" y="1" width="20" height="10" fill="url(#hours-key-unknown)" />
          </>
        </Entry>
      </ul>
    </>
  );
}

function Sea({ map }: { map: CoverageMap }): JSX.Element {
  const drawn = {
    title: 'The forecast over the sea',
    description: 'Where she will be without stopping, and the areas of the forecast. The lists under it say the same.',
  };
  return (
    <>
      <h3>In space</h3>
      <CoverageMapDrawing {...drawn} drawing={map.desk} where="desk" />
      <CoverageMapDrawing {...drawn} drawing={map.phone} where="phone" />
      <ul class="key" aria-label="Key to the chart">
        <Entry text="where she will be without stopping, a point at each midnight and where the plan ends">
          <>
            <path class="map-way" d="M0 6H22" />
            <circle class="reach-midnight" cx="11" cy="6" r="2.6" />
          </>
        </Entry>
        <Entry text="there without a forecast of the wind">
          <path class="reach-silent-way" d="M0 6H22" />
        </Entry>
        <Entry text="track">
          <path class="map-track" d="M0 6H22" />
        </Entry>
        <Entry text="edge of an area">
          <path class="reach-area" d="M0 6H22" />
        </Entry>
        <Entry text="a quantity ends or breaks off here, or its area is left">
          <rect class="reach-end" x="7" y="2" width="8" height="8" />
        </Entry>
      </ul>
      <ul class="plain forecast-areas">
        {map.areas.map(({ letter, text }) => (
          <li key={text}>
            {letter !== '' && <b>{letter} </b>}
            {text}.
          </li>
        ))}
        {map.ends.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </>
  );
}

const Entry = ({ text, children }: { text: string; children: JSX.Element }): JSX.Element => (
  <li>
    <svg class="key-mark" viewBox="0 0 22 12" width="22" height="12" aria-hidden="true">
      {children}
    </svg>
    {text}
  </li>
);
