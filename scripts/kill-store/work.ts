/** Writes of every kind a store takes, drawn. */
import { ok } from '../../lib/result/index.ts';
import type { Store } from '../../server/stores/index.ts';
import { keptForecast, keptMessage, keptRow, keptVersion, keptView, valueOf } from './contents.ts';
import type { Kept, Line } from './lines.ts';

export interface Worker {
  readonly store: Store;
  readonly draw: () => number;
  readonly say: (line: Line) => void;
}

const FILES = ['/boat/one.json', '/boat/two.json'];
const SENDERS = ['SH', 'LW'];
const MOST_FORECAST_OCTETS = 100_000_000;

const below = ({ draw }: Worker, limit: number): number => Math.floor(draw() * limit);
/** A text that differs from every other, of up to so many characters. */
const textOf = (worker: Worker, most: number): string =>
  `${worker.draw()} ${'sail '.repeat(Math.ceil(below(worker, most) / 5))}`;
const jsonOf = (worker: Worker, most: number): string => JSON.stringify({ text: textOf(worker, most) });
/** The clock of a boat may be set, and jump: times are drawn, and go back as often as forward. */
const timeOf = (worker: Worker): number => below(worker, 2_000_000_000_000);

/** The document of one of the files: taken over, saved, or following its file. */
function saveDocument(worker: Worker): Kept {
  const { documents } = worker.store;
  const file = FILES[below(worker, FILES.length)] ?? '';
  const text = { name: `Passage of ${file}`, json: jsonOf(worker, 20_000), atEpochMs: timeOf(worker) };
  const shown = valueOf(documents.shown(file));
  if (shown === null || worker.draw() < 0.05) {
    const made = valueOf(documents.takeOver({ ...text, file, folder: '/boat', inPlaceOf: shown }));
    return keptVersion(made, made.json);
  }
  const saved = valueOf(worker.draw() < 0.3 ? documents.follow(shown, text) : documents.save(shown, text));
  return keptVersion(saved, saved.json);
}

function somePassage(worker: Worker): number {
  const list = valueOf(worker.store.passages.list());
  return list[below(worker, list.length)]?.number ?? 1;
}

function appendLog(worker: Worker): Kept {
  const entry = {
    kind: 'note',
    json: jsonOf(worker, 2000),
    atEpochMs: timeOf(worker),
    writtenAtEpochMs: timeOf(worker),
  };
  return keptRow('log', valueOf(worker.store.log.append({ passageNumber: somePassage(worker), ...entry })));
}

function appendPlan(worker: Worker): Kept {
  const plan = { seed: 1, madeAtUtc: new Date(timeOf(worker)).toISOString(), writtenAtEpochMs: timeOf(worker) };
  const text = textOf(worker, 60_000);
  const json = (number: number): string => JSON.stringify({ number, text });
  return keptRow('plan', valueOf(worker.store.plans.append({ passageNumber: somePassage(worker), json, ...plan })));
}

function appendSent(worker: Worker): Kept {
  const text = textOf(worker, 400);
  return keptMessage(
    valueOf(
      worker.store.messages.appendSent({
        passageNumber: somePassage(worker),
        kind: 'plan',
        sender: SENDERS[below(worker, SENDERS.length)] ?? '',
        madeAtEpochMs: timeOf(worker),
        ofJson: '{}',
        writtenAtEpochMs: timeOf(worker),
        formToken: `form-${worker.draw()}`,
        seal: (counterNumber) =>
          ok({ text: `${counterNumber} ${text}`, fingerprint: `F${worker.draw()}`, signature: 'unsigned' }),
      }),
    ),
  );
}

function appendReceived(worker: Worker): Kept {
  const message = {
    passageNumber: somePassage(worker),
    kind: 'report',
    sender: 'AB',
    counterNumber: 1 + below(worker, 1_000_000_000),
    fingerprint: `F${worker.draw()}`,
    signature: 'verified',
    madeAtEpochMs: timeOf(worker),
    text: textOf(worker, 400),
    ofJson: '{}',
    writtenAtEpochMs: timeOf(worker),
  };
  return keptMessage(valueOf(worker.store.messages.appendReceived(message)));
}

/** A serial number in twelve digits, then anything. */
function keepView(worker: Worker): Kept {
  const passageNumber = somePassage(worker);
  const before = valueOf(worker.store.planViews.get(passageNumber));
  const serial = before === null ? 1 : Number(Buffer.from(before.octets).toString('utf8').slice(0, 12)) + 1;
  const octets = Buffer.from(`${String(serial).padStart(12, '0')}${textOf(worker, 100_000)}`);
  valueOf(worker.store.planViews.keep({ passageNumber, version: 1, logNumber: 0, madeBy: 'kill-store', octets }));
  return keptView(passageNumber, serial);
}

const CHUNK_OCTETS = 65_536;

/** Mostly small; some take long enough to be killed inside. */
async function addForecast(worker: Worker): Promise<Kept> {
  worker.say({ say: 'begins', what: 'forecast' });
  const chunkCount = worker.draw() < 0.3 ? 16 + below(worker, 100) : 1;
  const forecast = { fileName: 'drawn.grib2', content: chunks(worker, chunkCount), mostOctets: MOST_FORECAST_OCTETS };
  const added = valueOf(await worker.store.forecasts.add({ ...forecast, atEpochMs: timeOf(worker) }));
  return keptForecast(added.hash);
}

async function* chunks(worker: Worker, count: number): AsyncGenerator<Uint8Array> {
  for (let index = 0; index < count; index++) {
    const chunk = new Uint32Array(CHUNK_OCTETS / 4).map((_, at) => (at < 16 ? worker.draw() * 2 ** 32 : at * index));
    // As from a line that brings one piece after the other.
    // oxlint-disable-next-line no-await-in-loop
    await new Promise((settle) => setImmediate(settle));
    yield new Uint8Array(chunk.buffer);
  }
}

async function removeForecast(worker: Worker): Promise<null> {
  const list = valueOf(worker.store.forecasts.list());
  const found = list[below(worker, list.length)];
  if (found === undefined) return null;
  const { key } = keptForecast(found.hash);
  worker.say({ say: 'removes', key });
  valueOf(await worker.store.forecasts.remove(found.hash));
  worker.say({ say: 'removed', key });
  return null;
}

type Write = (worker: Worker) => Kept | null | Promise<Kept | null>;

/** How often each is drawn. */
const WRITES: readonly (readonly [weight: number, write: Write])[] = [
  [3, saveDocument],
  [4, appendLog],
  [2, appendPlan],
  [3, appendSent],
  [1, appendReceived],
  [2, keepView],
  [2, addForecast],
  [1, removeForecast],
];
const ALL_WEIGHT = WRITES.reduce((sum, [weight]) => sum + weight, 0);

/** One write of a kind that is drawn; said once the store has acknowledged it. */
export async function writeOnce(worker: Worker): Promise<void> {
  if (valueOf(worker.store.passages.list()).length === 0) worker.say({ say: 'kept', ...saveDocument(worker) });
  let left = worker.draw() * ALL_WEIGHT;
  const [, write] = WRITES.find(([weight]) => (left -= weight) < 0) ?? [0, appendLog];
  const kept = await write(worker);
  if (kept !== null) worker.say({ say: 'kept', ...kept });
}
