/**
 * The style sheets of `views/static` in the order in which they count: of two rules as strong as each other the later one
 * holds. Browsers are sent them as one file.
 */
export const STYLE_SHEETS = [
  'tokens.css',
  'page.css',
  'strip.css',
  'hour-reading.css',
  'windows.css',
  'plan.css',
  'watchkeeper.css',
  'document.css',
  'sail.css',
  'damage.css',
  'locker.css',
  'jobs.css',
  'hours.css',
  'order.css',
  'log.css',
  'plans.css',
  'trial.css',
  'forecast.css',
  'messages.css',
  'new.css',
  'display.css',
  'access.css',
  'map.css',
  'passage-edit.css',
  'sheet.css',
] as const;

/** Stands after them and holds in print only. */
export const PRINT_SHEET = 'print.css';
