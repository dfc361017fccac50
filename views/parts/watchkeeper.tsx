import type { JSX } from 'preact';
import type { WatchChart, WatchKeyEntry } from '../../server/presenters/watch-chart-model.ts';
import type { Watchkeeper } from '../../server/presenters/watchkeeper.ts';
import { AlertnessChartPhone } from '../charts/alertness-chart-phone.tsx';
import { AlertnessChart } from '../charts/alertness-chart.tsx';
import { FiguresTable } from './figures-table.tsx';
import { LongerWorkPart } from './longer-work.tsx';
import { RestRulesPart } from './rest-rules.tsx';
import { Sentences } from './sentences.tsx';
import { SleepDaysPart, SleepsPart } from './sleeps.tsx';
import { KeyMark } from './strip.tsx';

/** How awake the sailor is through the plan, what sleep buys, why work takes longer, and rest rules as yardsticks. */
export function WatchkeeperPart({ watchkeeper }: { watchkeeper: Watchkeeper }): JSX.Element {
  return (
    <section class="watchkeeper" id="watchkeeper" aria-labelledby="watchkeeper-title">
      <h1 class="what" id="watchkeeper-title">
        Watchkeeper
      </h1>
      <Sentences sentences={watchkeeper.sentences} />
      <ChartPart chart={watchkeeper.chart} />
      <SleepsPart sleeps={watchkeeper.sleeps} lookout={watchkeeper.lookout} />
      <div class="watch-pair">
        <SleepDaysPart days={watchkeeper.days} priorSleep={watchkeeper.priorSleep} />
        <LongerWorkPart longer={watchkeeper.longer} hint={watchkeeper.longerHint} />
      </div>
      <RestRulesPart rules={watchkeeper.restRules} notes={watchkeeper.notes} />
    </section>
  );
}

function ChartPart({ chart }: { chart: WatchChart }): JSX.Element {
  return (
    <div class="watch-chart">
      <h2>{chart.title}</h2>
      <p class="subtitle">{chart.subtitle}</p>
      <AlertnessChart chart={chart} />
      <AlertnessChartPhone chart={chart} />
      <ul class="key" aria-label="Key to the drawing of alertness">
        {chart.key.map((entry) => (
          <li key={entry.kind}>
            <WatchKeyMark kind={entry.kind} />
            {entry.text}
          </li>
        ))}
      </ul>
      <FiguresTable table={chart.table} summary="The same in figures, every hour" label="Alertness hour by hour" />
    </div>
  );
}

const dots = [4, 9, 14, 19].flatMap((x) => [3.5, 8.5].map((y) => ({ x, y })));

function WatchKeyMark({ kind }: { kind: WatchKeyEntry['kind'] }): JSX.Element {
  if (kind === 'awake-line') return <KeyMark kind="median" />;
  if (kind !== 'low-hours') return <KeyMark kind={kind} />;
  return (
    <svg class="key-mark strip-mark" viewBox="0 0 22 12" width="22" height="12" aria-hidden="true">
      <rect class="low-hours bare" x="1" y="1" width="20" height="10" />
      {dots.map(({ x, y }) => (
        <circle key={`${x} ${y}`} class="low-dot" cx={x} cy={y} r="0.9" />
      ))}
    </svg>
  );
}
