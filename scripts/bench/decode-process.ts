/** Reads a GRIB file as the server does, so that its peak of memory can be seen: `node decode-process.ts FILE`. */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { loadForecast } from '../../server/decoding/index.ts';
import { must } from './demo.ts';

const [path = ''] = process.argv.slice(2);
const beforeMib = process.resourceUsage().maxRSS / 1024;
must(await loadForecast([{ name: basename(path), bytes: new Uint8Array(readFileSync(path)) }]));
process.stdout.write(`${JSON.stringify({ beforeMib, peakMib: process.resourceUsage().maxRSS / 1024 })}\n`);
