import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { setTimeout } from 'node:timers/promises';
import busboy, { type Busboy } from 'busboy';
import type { Request } from 'express';
import { shownText } from '../../lib/result/index.ts';
import { type Form, formOfTexts } from '../routes/form.ts';
import { PageError } from '../routes/page-error.ts';

/** One file of a form, as it comes. */
export interface SentFile {
  /** Name of the input it was chosen in. */
  readonly field: string;
  /** Its own, without a folder, and without characters that are not seen. */
  readonly fileName: string;
  /** Ends early at the limit of the form, one octet above `mostFileOctets`. May be left unread. */
  readonly content: AsyncIterable<Uint8Array>;
}

export type TakeFile = (file: SentFile) => Promise<void>;

const MOST_FILES = 20;
const MOST_FIELDS = 1000;
const MOST_NAME_CHARACTERS = 200;
const MOST_FIELD_OCTETS = 1_000_000;
/** All texts of a form together: they are held in memory. */
const MOST_TEXT_OCTETS = 4_000_000;

/**
 * Reads a form with files. An input in which no file was chosen is passed over.
 *
 * @param mostFileOctets a longer file is given with one octet more, for its taker to refuse
 * @returns the texts of the form, once every file was taken; throws `PageError` 400, 413, 415, and what `takeFile` throws
 */
export async function readUpload(
  request: Request,
  { takeFile, mostFileOctets }: { readonly takeFile: TakeFile; readonly mostFileOctets: number },
): Promise<Form> {
  const parser = parserOf(request, mostFileOctets);
  const texts = new Map<string, string[]>();
  const taking: Promise<unknown>[] = [];
  const begun = new Set<Readable>();
  let isTooMuch = false;
  const tooMuch = (): void => {
    isTooMuch = true;
  };
  let textOctets = 0;
  // A part may come without a name, whatever the types say: it is no field of ours.
  parser.on('field', (name: string | undefined, value: string, { nameTruncated, valueTruncated }) => {
    if (name === undefined) return;
    textOctets += Buffer.byteLength(name) + Buffer.byteLength(value);
    if (nameTruncated || valueTruncated || textOctets > MOST_TEXT_OCTETS) return tooMuch();
    texts.set(name, [...(texts.get(name) ?? []), value]);
  });
  parser.on('file', (field, stream, { filename }) => {
    begun.add(stream);
    watchEnd(stream);
    // The name is of a stranger's making; there may be none.
    // oxlint-disable-next-line typescript/no-unnecessary-condition
    const fileName = filename === undefined ? undefined : shownText(filename, MOST_NAME_CHARACTERS);
    taking.push(taken(stream, { field, fileName }, takeFile));
  });
  for (const limit of ['filesLimit', 'fieldsLimit', 'partsLimit'] as const) parser.on(limit, tooMuch);
  const read = await outcomeOf(pipeline(request, wholeFiles(parser, begun), parser));
  // After a part that is broken the parser reads what it holds to the end, and begins files that it ends no more.
  if (read !== null) for (const stream of begun) if (!isAllThere(stream)) stream.destroy(tornOff);
  const failures = (await Promise.all(taking)).filter((failure) => failure !== null);
  if (read !== null) throw tornOff;
  if (failures.length > 0) throw failures[0];
  if (isTooMuch) throw new PageError(413, 'Too much', TOO_MUCH);
  return formOfTexts(texts);
}

const TOO_MUCH = `The form holds more than is taken at once: ${MOST_FILES} files, ${MOST_FIELDS} fields, ${MOST_TEXT_OCTETS / 1e6} MB of text. Send less of it.`;

/** What was sent is looked at again so often until all of it is read [ms]. */
const LOOK_EVERY_MS = 20;

/**
 * Passes a form on, and breaks it off where a file has begun and cannot end: what follows the end of a form may look like
 * one to the parser, which then waits for it for ever.
 */
const wholeFiles = (parser: Busboy, begun: ReadonlySet<Readable>) =>
  async function* passOn(source: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
    yield* source;
    while (parser.writableLength > 0 && !parser.destroyed)
      // All of it must have gone through the parser.
      // oxlint-disable-next-line no-await-in-loop
      await setTimeout(LOOK_EVERY_MS);
    if ([...begun].some((stream) => !isAllThere(stream))) throw tornOff;
  };

const allThere = new WeakSet<Readable>();
const isAllThere = (stream: Readable): boolean => allThere.has(stream);

/** Remembers when the parser has given a file its end, read or not. */
function watchEnd(stream: Readable): void {
  const push = stream.push.bind(stream);
  stream.push = (chunk, encoding) => {
    if (chunk === null) allThere.add(stream);
    return push(chunk, encoding);
  };
}

/** What a promise failed with; null: it did not. */
const outcomeOf = (work: Promise<unknown>): Promise<unknown> =>
  work.then(
    () => null,
    (error: unknown) => error ?? new Error('it failed without saying why'),
  );

/** Hands a file over and reads to its end what was left of it, or the form would stand still. */
async function taken(
  stream: Readable,
  { field, fileName }: { readonly field: string; readonly fileName: string | undefined },
  takeFile: TakeFile,
): Promise<unknown> {
  // Torn off before it is read, or after it was left: told by the form as a whole; without a listener it ends the process.
  stream.on('error', () => null);
  const isChosen = fileName !== undefined && fileName !== '';
  const content: AsyncIterable<Uint8Array> = stream.iterator({ destroyOnReturn: false });
  const failure = isChosen ? await outcomeOf(takeFile({ field, fileName, content })) : null;
  stream.resume();
  return failure;
}

function parserOf(request: Request, mostFileOctets: number): Busboy {
  if (request.is('multipart/form-data') === false)
    throw new PageError(415, 'Not read', 'This is no form with files. Load the page again and send it from there.');
  try {
    return busboy({
      headers: request.headers,
      defParamCharset: 'utf8',
      limits: {
        files: MOST_FILES,
        fields: MOST_FIELDS,
        parts: MOST_FILES + MOST_FIELDS,
        fieldSize: MOST_FIELD_OCTETS,
        fileSize: mostFileOctets + 1,
        headerPairs: 50,
      },
    });
  } catch {
    throw tornOff;
  }
}

const tornOff = new PageError(
  400,
  'Not read',
  'The form did not arrive whole, so nothing was changed. Load its page again and send it once more.',
);

/** A small file as text; null: it is longer than `mostOctets`. A byte order mark is left out. */
export async function readSmall(content: AsyncIterable<Uint8Array>, mostOctets: number): Promise<string | null> {
  const chunks: Uint8Array[] = [];
  let sizeOctets = 0;
  for await (const chunk of content) {
    sizeOctets += chunk.length;
    if (sizeOctets > mostOctets) return null;
    chunks.push(chunk);
  }
  return new TextDecoder().decode(Buffer.concat(chunks));
}
