/** The digest of the demo passage, made of its control run. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { buildForecast, type Forecast } from '../../lib/forecast/index.ts';
import { digestOfPassage } from '../../lib/message/index.ts';
import { parsePassage } from '../../lib/passage/index.ts';
import { ok, type Result } from '../../lib/result/index.ts';
import type { AskedDigest, DigestAnswer } from '../../server/planning-messages.ts';

const folder = resolve(import.meta.dirname, '../../sample-forecasts');
let forecast: Result<Forecast> | null = null;

function controlRun(): Result<Forecast> {
  const name = 'demo-control.grib2';
  forecast ??= buildForecast([{ name, bytes: new Uint8Array(readFileSync(resolve(folder, name))) }]);
  return forecast;
}

/** As the planning process answers. */
export function digestAnswer({ nowEpochMs, aheadH, mostCharacterCount }: AskedDigest): Result<DigestAnswer> {
  const passage = parsePassage(readFileSync(resolve(folder, 'demo-passage.json'), 'utf8'), 'demo');
  const run = controlRun();
  if (!passage.ok) return passage;
  if (!run.ok) return run;
  const asked = { nowEpochMs, aheadH, mostCharacterCount };
  const digest = digestOfPassage({ passage: passage.value, forecast: run.value, ...asked });
  return digest.ok ? ok({ kind: 'digest', digest: digest.value }) : digest;
}
