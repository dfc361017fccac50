import type { Part, PartName } from './bench-case.ts';
import { gribPart } from './parts/grib.ts';
import { memoryPart } from './parts/memory.ts';
import { messagesPart } from './parts/messages.ts';
import { pagesPart } from './parts/pages.ts';
import { planPart } from './parts/plan.ts';
import { startPart } from './parts/start.ts';
import { windowsPart } from './parts/windows.ts';

export const PARTS: Readonly<Record<PartName, Part>> = {
  grib: gribPart,
  plan: planPart,
  windows: windowsPart,
  messages: messagesPart,
  pages: pagesPart,
  start: startPart,
  memory: memoryPart,
};
