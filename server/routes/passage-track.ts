import { type Request, type Response, Router } from 'express';
import { failed } from '../../lib/result/index.ts';
import { renderPassageEdit } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import {
  type WaypointFile,
  type WaypointPlace,
  waypointsIn,
  waypointsOf,
  withoutWaypoint,
  withTrack,
  withWaypoint,
  withWaypointMoved,
} from '../passage-forms/index.ts';
import { gpxRead, trackPage, waypointPage } from '../presenters/track-page.ts';
import { indexOf, savingEntry, shownDocument } from './entry.ts';
import { formBody, formOf, mailBody } from './form.ts';
import { PageError } from './page-error.ts';
import { saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

const LIST = '/passage/track';

interface Asked {
  readonly request: Request;
  readonly response: Response;
}

/** The waypoints: a list, a form for each, and a GPX text read in their place. */
export function passageTrackRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get(LIST, async (request, response) => {
      const page = trackPage(await shownDocument(deps), deps.nowEpochMs());
      sendHtml(response, renderPassageEdit(page, await shownFor(deps, request)));
    })
    .post(`${LIST}/gpx`, mailBody, (request, response) => postGpx(deps, { request, response }))
    .get(`${LIST}/:index`, async (request, response) => {
      const document = await shownDocument(deps);
      const { length } = waypointsOf(document.file, document.passage.track);
      const { after } = request.query;
      const place = placeAsked(request, typeof after === 'string' ? after : String(length));
      if (place.index > length || (!place.isNew && place.index === length)) throw noSuch();
      const page = waypointPage(place, { document, nowEpochMs: deps.nowEpochMs(), refused: null });
      sendHtml(response, renderPassageEdit(page, await shownFor(deps, request)));
    })
    .post(`${LIST}/:index`, formBody, (request, response) => postWaypoint(deps, { request, response }))
    .post(`${LIST}/:index/move`, formBody, (request, response) => moveWaypoint(deps, { request, response }));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

const noSuch = (): PageError =>
  new PageError(404, 'Not there', 'This waypoint is not in the passage. Look at the list of waypoints.');

/** The waypoint of the address; a new one goes in behind so many. */
function placeAsked(request: Request, after: string): WaypointPlace {
  const isNew = request.params['index'] === 'new';
  const index = isNew ? Number(/^\d{1,4}$/.exec(after)?.[0] ?? Number.NaN) : indexOf(request, 'index', 9999);
  if (Number.isNaN(index)) throw noSuch();
  return { index, isNew };
}

/** All waypoints there are; those of a GPX file were read with the passage. */
async function allWaypoints(deps: Deps): Promise<readonly WaypointFile[]> {
  const { file, passage } = await shownDocument(deps);
  return waypointsOf(file, passage.track);
}

async function postWaypoint(deps: Deps, asked: Asked): Promise<void> {
  const place = placeAsked(asked.request, formOf(asked.request).text('after'));
  const waypoints = await allWaypoints(deps);
  await savingEntry(deps, asked, {
    to: `${LIST}#waypoint-${place.index}`,
    save: (file, texts) => withWaypoint(file, waypoints, { ...place, texts }),
    remove: (file) => withoutWaypoint(file, waypoints, place.index),
    page: (refused, document, shown) =>
      renderPassageEdit(waypointPage(place, { document, nowEpochMs: deps.nowEpochMs(), refused }), shown),
  });
}

async function moveWaypoint(deps: Deps, asked: Asked): Promise<void> {
  const index = indexOf(asked.request, 'index', 9999);
  const by = formOf(asked.request).text('do') === 'up' ? -1 : 1;
  const waypoints = await allWaypoints(deps);
  await saving(deps, asked, {
    to: `${LIST}#waypoint-${index + by}`,
    change: (file) => withWaypointMoved(file, waypoints, { index, by }),
    page: async (_, shown) => renderPassageEdit(trackPage(await shownDocument(deps), deps.nowEpochMs()), shown),
  });
}

/** A text pasted: shown with what it would make of the track, and saved with the second button. */
async function postGpx(deps: Deps, asked: Asked): Promise<void> {
  const { request, response } = asked;
  const form = formOf(request);
  const text = form.text('gpx');
  const document = await shownDocument(deps);
  const { read, view } = gpxRead(text, document);
  if (form.text('do') !== 'save') {
    response.status(read.ok ? 200 : 422);
    const page = trackPage(document, deps.nowEpochMs(), view);
    return sendHtml(response, renderPassageEdit(page, await shownFor(deps, request)));
  }
  return saving(deps, asked, {
    to: LIST,
    change: (file) => (read.ok ? withTrack(file, waypointsIn(read.value)) : failed(...read.problems)),
    page: async (_, shown) => {
      const now = await shownDocument(deps);
      return renderPassageEdit(trackPage(now, deps.nowEpochMs(), gpxRead(text, now).view), shown);
    },
  });
}
