/** The processes behind a plan: one makes it and ends, so that its memory goes back to the system; one answers for it. */
import { type ChildProcess, fork } from 'node:child_process';
import { EventEmitter, once } from 'node:events';
import type { Writable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { type Answering, answering } from './answering-process.ts';
import type { PlanningPort } from './plan-run.ts';
import { noPlan } from './planning-answers.ts';
import type {
  AnsweringTask,
  MakingMessage,
  NumberedQuestion,
  PlanningMessage,
  PlanningTask,
} from './planning-messages.ts';

/** Both processes as one that lives on after the plan. */
export interface PlanningProcesses extends PlanningPort {
  /** The plan is no longer wanted. */
  readonly raiseStopFlag: () => void;
}

/** Begins the plan of a task. Nothing outlives the server: a process whose server is gone ends itself. */
export function planningProcesses(task: PlanningTask): PlanningProcesses {
  const events = new EventEmitter<PortEvents>();
  const maker = started(task, MAKING);
  const waiting: NumberedQuestion[] = [];
  let state: 'making' | 'made' | 'none' | 'closed' = 'making';
  let madeFrom = '';
  let answerer: Answering | null = null;

  const refuse = ({ questionNumber }: NumberedQuestion): void =>
    void setImmediate(() => events.emit('message', { questionNumber, answer: noPlan }));

  const beginAnswering = (): void => {
    answerer = answering(
      () => started({ ...task, madeFrom }, ANSWERING),
      (message) => events.emit('message', message),
    );
    for (const question of waiting.splice(0)) answerer.ask(question);
  };

  maker.on('error', (error) => events.emit('error', error));
  maker.on('exit', (code, signal) => {
    if (state === 'making') events.emit('exit', code ?? signal ?? 'unknown');
  });
  maker.on('message', (message: MakingMessage) => {
    if (state === 'closed') return;
    if ('madeFrom' in message) madeFrom = message.madeFrom;
    else if ('mistake' in message && !('questionNumber' in message)) events.emit('error', new Error(message.mistake));
    else {
      if ('result' in message) {
        state = message.result.ok ? 'made' : 'none';
        // Whole, since the message is here; it would end by itself a little later.
        void ended(maker);
        if (message.result.ok) beginAnswering();
        else for (const question of waiting.splice(0)) refuse(question);
      }
      events.emit('message', message);
    }
  });

  return Object.assign(events, {
    postMessage: (question: NumberedQuestion): void => {
      if (answerer !== null) answerer.ask(question);
      else if (state === 'making') waiting.push(question);
      else refuse(question);
    },
    raiseStopFlag: (): void => void stopPipe(maker).write('s'),
    terminate: async (): Promise<void> => {
      state = 'closed';
      const left = answerer?.close() ?? null;
      answerer = null;
      await Promise.all([maker, ...(left === null ? [] : [left])].map(ended));
    },
  });
}

interface PortEvents {
  readonly message: [PlanningMessage];
  readonly error: [unknown];
  readonly exit: [number | string];
}

interface ProcessKind {
  readonly options: readonly string[];
}

/** Little is thrown away at once while nothing is searched. */
const ANSWERING: ProcessKind = { options: ['--max-semi-space-size=2'] };
const MAKING: ProcessKind = { options: [] };

/** For the GNU C library: large arrays are given back to the system when they are let go, and threads share what is left. */
const GIVING_BACK = { MALLOC_MMAP_THRESHOLD_: '262144', MALLOC_ARENA_MAX: '2' };

const ENTRY = fileURLToPath(new URL('planning-process.mjs', import.meta.url));

function started(task: PlanningTask | AnsweringTask, { options }: ProcessKind): ChildProcess {
  const child = fork(ENTRY, [], {
    serialization: 'advanced',
    execArgv: [...options],
    env: { ...process.env, ...GIVING_BACK },
    stdio: ['ignore', 'inherit', 'inherit', 'pipe', 'ipc'],
  });
  // What is written to a process that has just ended is for nobody.
  stopPipe(child).on('error', () => undefined);
  child.send(task, () => undefined);
  return child;
}

function stopPipe(child: ChildProcess): Writable {
  const pipe = child.stdio[3];
  if (pipe === null || pipe === undefined || !('write' in pipe)) throw new Error('a pipe was asked for');
  return pipe;
}

async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const exit = once(child, 'exit');
  child.kill('SIGKILL');
  await exit;
}
