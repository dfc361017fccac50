import { Worker } from 'node:worker_threads';
import { sourceOf, type WantedField } from '../../lib/forecast/index.ts';
import { shared } from './shared-bytes.ts';
import type { DecodedPart, ThreadAnswer, ThreadFiles, ThreadQuestion } from './task.ts';

interface ThreadOptions {
  readonly threadCount: number;
  readonly onDone: (task: WantedField) => void;
  readonly signal?: AbortSignal;
}

/** Each thread is asked for the next field as soon as it has answered. A thread that dies ends the whole work. */
export async function decodeOnThreads(tasks: readonly WantedField[], options: ThreadOptions): Promise<DecodedPart[]> {
  const files = [...new Set(tasks.flatMap(({ file }) => ('bytes' in file ? [file.bytes] : [])))];
  const workerData: ThreadFiles = { files: files.map(shared) };
  const threadCount = Math.min(options.threadCount, tasks.length);
  const threads = Array.from(
    { length: threadCount },
    () => new Worker(new URL('decode-thread.mjs', import.meta.url), { workerData }),
  );
  try {
    return await handOut(tasks, threads, { ...options, files });
  } finally {
    await Promise.all(threads.map((thread) => thread.terminate()));
  }
}

function handOut(
  tasks: readonly WantedField[],
  threads: readonly Worker[],
  { onDone, signal, files }: ThreadOptions & { files: readonly Uint8Array[] },
): Promise<DecodedPart[]> {
  const answers = new Map<number, DecodedPart>();
  let nextIndex = 0;
  return new Promise((settle, fail) => {
    const askNext = (thread: Worker): void => {
      const task = tasks[nextIndex];
      if (task !== undefined) {
        const question = questionOf(task, nextIndex, files);
        nextIndex += 1;
        thread.postMessage(question);
      } else if (answers.size === tasks.length) settle(inOrder(answers, tasks.length));
    };
    signal?.addEventListener('abort', () => fail(signal.reason), { once: true });
    for (const thread of threads) {
      thread.on('error', fail);
      thread.on('exit', (code) => fail(new Error(`a decoding thread ended with code ${code} and no answer`)));
      thread.on('message', ({ taskIndex, decoded }: ThreadAnswer) => {
        answers.set(taskIndex, decoded);
        const task = tasks[taskIndex];
        if (task !== undefined) onDone(task);
        askNext(thread);
      });
      askNext(thread);
    }
  });
}

/** Of a file that is held the place in it, of another one the octets of the message, which are copied. */
function questionOf(
  { file, field, part }: WantedField,
  taskIndex: number,
  files: readonly Uint8Array[],
): ThreadQuestion {
  if ('bytes' in file) return { taskIndex, octets: files.indexOf(file.bytes), field, part };
  const source = sourceOf(file, field);
  return { taskIndex, octets: source.bytes, field: source.field, part };
}

const inOrder = (answers: ReadonlyMap<number, DecodedPart>, count: number): DecodedPart[] =>
  Array.from({ length: count }, (_, i) => {
    const answer = answers.get(i);
    if (answer === undefined) throw new Error(`task ${i} was not answered`);
    return answer;
  });
