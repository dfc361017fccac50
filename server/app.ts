import express, { type Express } from 'express';
import type { Deps } from './deps.ts';
import { accessGate, accessRoutes, closedAtFirst } from './routes/access.ts';
import { archiveRoutes } from './routes/archive.ts';
import { damageRoutes } from './routes/damage.ts';
import { displayRoutes } from './routes/display.ts';
import { documentRoutes } from './routes/document.ts';
import { errorPage, notFound } from './routes/errors.ts';
import { forecastRoutes } from './routes/forecast.ts';
import { formAddressRoutes } from './routes/form-addresses.ts';
import { hoursRoutes } from './routes/hours.ts';
import { jobsRoutes } from './routes/jobs.ts';
import { requestRate, uploadLimits } from './routes/limits.ts';
import { lockerRoutes } from './routes/locker.ts';
import { logRoutes } from './routes/log.ts';
import { messagesRoutes } from './routes/messages.ts';
import { newRoutes } from './routes/new.ts';
import { orderRoutes } from './routes/order.ts';
import { passageEditRoutes } from './routes/passage-edit.ts';
import { passageRoutes } from './routes/passage.ts';
import { planRoutes } from './routes/plan.ts';
import { plansRoutes } from './routes/plans.ts';
import { onlyHosts, onlyMethods, onlyOwnForms, securityHeaders } from './routes/security.ts';
import { sheetRoutes } from './routes/sheet.ts';
import { staticRoutes } from './routes/static.ts';
import { styleRoutes } from './routes/style.ts';
import { trialRoutes } from './routes/trial.ts';
import { windowsRoutes } from './routes/windows.ts';

/** The pages over what they are given; it neither listens nor reads clock, files or environment. */
export function createApp(deps: Deps): Express {
  const app = express();
  app.disable('x-powered-by');
  app.use(
    securityHeaders,
    closedAtFirst(deps),
    requestRate(deps.uptimeMs),
    onlyMethods,
    onlyHosts(deps.allowedHosts),
    accessGate(deps),
    onlyOwnForms,
    uploadLimits(),
  );
  app.use(
    staticRoutes(),
    accessRoutes(deps),
    formAddressRoutes(),
    passageRoutes(deps),
    passageEditRoutes(deps),
    windowsRoutes(deps),
    hoursRoutes(deps),
    jobsRoutes(deps),
    sheetRoutes(deps),
    damageRoutes(deps),
    lockerRoutes(deps),
    orderRoutes(deps),
    planRoutes(deps),
    plansRoutes(deps),
    trialRoutes(deps),
    forecastRoutes(deps),
    logRoutes(deps),
    messagesRoutes(deps),
    documentRoutes(deps),
    archiveRoutes(deps),
    newRoutes(deps),
    styleRoutes(),
    displayRoutes(deps),
  );
  app.use(notFound, errorPage(deps));
  return app;
}
