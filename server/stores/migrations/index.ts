import { passages } from './0001-passages.ts';
import { forecasts } from './0002-forecasts.ts';
import { documents } from './0003-documents.ts';
import { logAndPlans } from './0004-log-and-plans.ts';
import { messages } from './0005-messages.ts';
import { madeHere } from './0006-made-here.ts';
import { forecastCredits } from './0007-forecast-credits.ts';
import { planViews } from './0008-plan-views.ts';
import { forecastOrder } from './0009-forecast-order.ts';

/** In order; only ever added to. `PRAGMA user_version` is the number of those a database has had. */
export const migrations: readonly string[] = [
  passages,
  forecasts,
  documents,
  logAndPlans,
  messages,
  madeHere,
  forecastCredits,
  planViews,
  forecastOrder,
];
