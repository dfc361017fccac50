import { Router } from 'express';

/**
 * Addresses that forms are sent to and that have no page of their own, and the page that holds the form. Where a form was
 * refused the browser shows such an address, and asks for it when it is loaded again or after the display was changed.
 * Buttons that always lead on to a page are not among them.
 */
export const FORM_PAGES: Readonly<Record<string, string>> = {
  '/damage/:sail/tears/:tear/jobs': '/damage/:sail/tears/:tear',
  '/document/bring-back': '/document',
  '/document/bring-in': '/document#bring-in',
  '/document/show': '/document',
  '/document/take-over': '/document',
  '/document/undo': '/document',
  '/forecast/files': '/forecast#files',
  '/forecast/remove': '/forecast#files',
  '/forecast/upload': '/forecast#upload',
  '/jobs/:id/allow': '/jobs/:id/hours',
  '/jobs/:id/copy': '/jobs/:id',
  '/jobs/:id/forbid': '/jobs/:id/hours',
  '/jobs/:id/library': '/jobs/:id',
  '/jobs/:id/lock': '/jobs/:id/hours',
  '/jobs/:id/move': '/jobs',
  '/jobs/:id/remove': '/jobs/:id',
  '/jobs/:id/text': '/jobs/:id/edit',
  '/jobs/:id/unlock': '/jobs/:id/hours',
  '/key/leave': '/key',
  '/locker/kerf': '/locker#cutting',
  '/locker/table': '/locker#table',
  '/log/:number/withdraw': '/log',
  '/log/tap': '/log',
  '/messages/:number/take': '/messages/:number',
  '/messages/count': '/messages#write',
  '/messages/read': '/messages#read',
  '/messages/take': '/messages#read',
  '/messages/write': '/messages#write',
  '/passage/track/:index/move': '/passage/track',
  '/passage/track/gpx': '/passage/track#gpx',
  '/plan/order/out': '/plan/order',
  '/trial/take': '/trial',
};

/** Leads from such an address to its page; stands before the routes of the pages, whose parameters it would fit. */
export function formAddressRoutes(): Router {
  const router = Router();
  for (const [form, page] of Object.entries(FORM_PAGES)) {
    router.get(form, ({ params }, response) => {
      response.redirect(
        303,
        page.replaceAll(/:(\w+)/g, (_, name: string) => encodeURIComponent(String(params[name]))),
      );
    });
  }
  return router;
}
