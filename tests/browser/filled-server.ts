/** The pages with something on every one of them: a plan with its map, forecasts, a log, two plans, messages, a lock. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { buildForecast } from '../../lib/forecast/index.ts';
import { parsePassage } from '../../lib/passage/index.ts';
import type { PassageView, PlanStanding } from '../../server/deps.ts';
import { NOTHING_ASKED } from '../../server/presenters/forecast-fetch.ts';
import { forecastSummary } from '../../server/presenters/forecast-summary.ts';
import { picture } from '../pages/fixture-plan.ts';
import { view } from '../pages/fixture-windows.ts';
import { straightWay } from '../pages/fixture-way.ts';
import { fieldsOf } from '../pages/sent-forms.ts';
import { demoFile, demoText } from '../pages/test-documents.ts';
import { testServer, type TestServer } from '../pages/test-server.ts';

const KEY = new TextEncoder().encode('an invented key of many letters');

/** The fixture's plan, a mile or two from entry to entry over the date line, with the demo's forecast. */
function filledView(): PassageView {
  const name = 'demo-control.grib2';
  const bytes = new Uint8Array(readFileSync(path.join(path.dirname(demoFile), name)));
  const files = [{ name, bytes }];
  const forecast = buildForecast(files);
  const passage = parsePassage(demoText, 'demo');
  if (!forecast.ok || !passage.ok) throw new Error('the demo cannot be read');
  const { plan } = view;
  const entries = plan.entries.map((entry, i) => ({ ...entry, lat: -36 + (i % 3) * 0.1, lon: 179.5 + i * 0.1 }));
  const runs = entries.flatMap(({ jobId, startUtc, kind }, i) =>
    kind === 'work' && jobId !== null ? [{ jobId, startUtc, towardDegTrue: i * 40, speedKn: 4, heldMin: 90 }] : [],
  );
  const way = straightWay({ lat: -36.3, lon: 178.1 }, { lat: -20, lon: 179 });
  const of = { passage: passage.value, forecast: forecast.value, files, ...way, nowEpochMs: picture.nowEpochMs };
  return {
    ...view,
    plan: { ...plan, entries },
    way: { now: { lat: -36.2, lon: 179.2 }, track: passage.value.track, runs },
    forecast: forecastSummary(of),
  };
}

/**
 * A server whose every page has something to show.
 *
 * @param standing how the plan stands, in place of a plan that is there
 */
export async function filledServer(standing: () => PlanStanding | null = () => null): Promise<TestServer> {
  const ready: PlanStanding = { kind: 'ready', view: filledView() };
  const server = await testServer(() => standing() ?? ready, undefined, KEY);
  const { log, plans, forecasts } = server.kept;
  for (const version of [1, 1]) plans.keepInHistory(view, { number: 1, version, logNumber: 0 });
  const at = { atUtc: '2026-05-27T15:00Z' } as const;
  const seen = { kind: 'observation', ...at, lat: -36.3, lon: 178.1, pressureHpa: 1009 } as const;
  const write = (entry: Parameters<typeof log.writeLog>[0]['entry'], formToken: string) =>
    log.writeLog({ passageNumber: 1, entry, atEpochMs: 0, formToken });
  await write(seen, 'a');
  await write({ kind: 'correction', ...at, corrects: 1, by: { ...seen, pressureHpa: 1011 } }, 'b');
  await write({ kind: 'job', ...at, jobId: 'oil', event: 'started' }, 'c');
  await write({ kind: 'correction', ...at, corrects: 3, by: null }, 'd');
  // Nothing listens there: the fetch ends with a problem.
  forecasts.beginFetch({ ...NOTHING_ASKED, address: 'http://127.0.0.1:1/none.grib2' });
  forecasts.cancelFetch();
  const post = (to: string, fields: Readonly<Record<string, string>>): Promise<Response> =>
    fetch(server.url + to, { method: 'POST', body: new URLSearchParams(fields), redirect: 'manual' });
  const form = fieldsOf(await (await fetch(`${server.url}/messages`)).text());
  await post('/messages/write', { ...form, kind: 'plan', length: 'sms', limit: '', detail: 'full', sender: 'SH' });
  await post('/jobs/drop/lock', { version: '1.1', startUtc: '2026-05-28T02:00Z', handling: 'run-off' });
  await post('/jobs/oil/forbid', { version: '1.2', fromUtc: '2026-05-28T14:00', toUtc: '2026-05-28T16:00', job: '' });
  return server;
}
