/** Runs on a thread of its own: decodes the fields it is asked for, one after another. */
import { parentPort, workerData } from 'node:worker_threads';
import { decodePart } from '../../lib/grib/index.ts';
import type { ThreadAnswer, ThreadFiles, ThreadQuestion } from './task.ts';

const given: unknown = workerData;
if (!isFiles(given)) throw new Error('the decoding thread was started without files');
const { files } = given;
let scratch = new Float64Array(0);

parentPort?.on('message', (question: ThreadQuestion) => {
  const { field, part } = question;
  if (scratch.length < field.pointCount) scratch = new Float64Array(field.pointCount);
  const { octets } = question;
  const bytes = typeof octets === 'number' ? (files[octets] ?? new Uint8Array()) : octets;
  const decoded = decodePart(bytes, field, { part, scratch });
  const answer: ThreadAnswer = { taskIndex: question.taskIndex, decoded };
  const values = decoded.ok ? decoded.value.buffer : null;
  parentPort?.postMessage(answer, values instanceof ArrayBuffer ? [values] : []);
});

function isFiles(data: unknown): data is ThreadFiles {
  return typeof data === 'object' && data !== null && 'files' in data && Array.isArray(data.files);
}
