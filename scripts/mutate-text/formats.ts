import type { TextFormat } from './format.ts';
import { gpxFormat } from './gpx-format.ts';
import { lockerFormat } from './locker-format.ts';
import { logFormat } from './log-format.ts';
import { digestFormat, messageFormat } from './message-format.ts';
import { passageFormat } from './passage-format.ts';
import { planFormat } from './plan-format.ts';
import { sailFormat } from './sail-format.ts';
import { speedFormat } from './speed-format.ts';

/** Formats by name; made when asked for, as some samples take seconds. */
export const TEXT_FORMATS: Readonly<Record<string, () => TextFormat>> = {
  gpx: gpxFormat,
  passage: passageFormat,
  'locker-csv': lockerFormat,
  'speed-csv': speedFormat,
  log: logFormat,
  plan: planFormat,
  sail: sailFormat,
  digest: digestFormat,
  message: messageFormat,
};
