import { createHash } from 'node:crypto';
import { z } from 'zod';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import type { Connection } from './database.ts';
import { noSuchPassage, versionConflict } from './store-problems.ts';

/** Which document, and which state of it. */
export interface DocumentVersion {
  readonly number: number;
  readonly version: number;
}

/** A passage that was taken over from a file, or made on the pages. */
export interface StoredDocument extends DocumentVersion {
  /** Its own among all passages of the store. */
  readonly name: string;
  readonly json: string;
  readonly savedAtEpochMs: number;
  /** Absolute path of the file it came from; of one made on the pages, the file that is shown where it is not. */
  readonly file: string;
  /** Names in it that are relative are looked for here. */
  readonly folder: string;
  /** `textHash` of the text as it was taken over or made. */
  readonly takenHash: string;
  readonly takenAtEpochMs: number;
  /** No file was its beginning. */
  readonly isMadeHere: boolean;
}

export type DocumentSummary = Omit<StoredDocument, 'json'>;

export interface VersionSummary extends DocumentVersion {
  readonly name: string;
  readonly savedAtEpochMs: number;
}

/** A text as the next state of a document. */
export interface NewText {
  /** Name wanted for it; where another passage has that, it is numbered: `Tasman (2)`. */
  readonly name: string;
  readonly json: string;
  readonly atEpochMs: number;
}

export interface DocumentStore {
  /**
   * The text of a file as a new document, shown from now on.
   *
   * @returns `store.version-conflict` where another state than `inPlaceOf` is shown by now; null: none is
   */
  takeOver(text: NewText & { file: string; folder: string; inPlaceOf: DocumentVersion | null }): Result<StoredDocument>;
  /**
   * A text made on the pages as a new document, shown from now on in the place of the file's.
   *
   * @param text `formToken`: of the form; sent twice it makes one document, which is shown again
   */
  make(text: NewText & { file: string; folder: string; formToken: string }): Result<StoredDocument>;
  /** The next version of a document, which then is the file as taken over; `store.version-conflict`. */
  follow(of: DocumentVersion, text: NewText): Result<StoredDocument>;
  /** The next version of a document, edited; `store.version-conflict`. */
  save(of: DocumentVersion, text: NewText): Result<StoredDocument>;
  /** The document of a file that is shown; null: none was taken over yet. */
  shown(file: string): Result<StoredDocument | null>;
  /** The document of a name, as in `store:NAME`; null: no passage has it, or it is no document. */
  named(name: string): Result<StoredDocument | null>;
  /** Shows another document of the file from now on; `store.no-such-passage`. */
  show(file: string, number: number): Result<StoredDocument>;
  /** All documents of a file, by number. */
  list(file: string): Result<readonly DocumentSummary[]>;
  /** Every version of a passage there was, by number. */
  versions(number: number): Result<readonly VersionSummary[]>;
  /** The text of one of them. */
  versionText(of: DocumentVersion): Result<string | null>;
}

/** SHA-256 of a text, 64 hexadecimal digits. */
export const textHash = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');

const summaryColumns =
  'number, version, name, saved_at_epoch_ms AS savedAtEpochMs, file, folder, taken_hash AS takenHash, taken_at_epoch_ms AS takenAtEpochMs, form_token IS NOT NULL AS isMadeHere';
const joined = 'passage JOIN passage_source ON passage_source.passage_number = number';
const ofFile = `${joined} JOIN passage_shown USING (file)`;

const versionSchema = z.object({ number: z.number(), version: z.number() });
const versionSummarySchema = versionSchema.extend({ name: z.string(), savedAtEpochMs: z.number() });
const summarySchema = versionSummarySchema.extend({
  file: z.string(),
  folder: z.string(),
  takenHash: z.string(),
  takenAtEpochMs: z.number(),
  isMadeHere: z.number().transform((flag) => flag === 1),
});
const documentSchema = summarySchema.extend({ json: z.string() });
const textSchema = z.object({ json: z.string() });
const numberSchema = z.object({ number: z.number() });

export function documentStore(connection: Connection): DocumentStore {
  const byNumber = (number: number): StoredDocument | null =>
    connection.first(documentSchema, `SELECT ${summaryColumns}, json FROM ${joined} WHERE number = :number`, {
      number,
    });
  const written = (number: number): Result<StoredDocument> => {
    const document = byNumber(number);
    return document === null ? failed(noSuchPassage(number)) : ok(document);
  };
  const point = (file: string, number: number): void => {
    connection.run(
      'INSERT INTO passage_shown (file, passage_number) VALUES (:file, :number) ' +
        'ON CONFLICT (file) DO UPDATE SET passage_number = :number',
      { file, number },
    );
  };
  const replace = ({ number, version }: DocumentVersion, { name, json, atEpochMs }: NewText): Result<null> => {
    const found = byNumber(number);
    if (found === null) return failed(noSuchPassage(number));
    if (found.version !== version) return failed(versionConflict(number, { expected: version, found: found.version }));
    connection.run(
      'UPDATE passage SET name = :name, json = :json, version = version + 1, saved_at_epoch_ms = :atEpochMs ' +
        'WHERE number = :number',
      { number, json, atEpochMs, name: freeName(connection, name, number) },
    );
    return ok(null);
  };

  /** A new document, shown from now on. */
  const begin = (
    text: NewText & { file: string; folder: string; formToken: string | null },
  ): Result<StoredDocument> => {
    const { file, folder, formToken, json, atEpochMs } = text;
    const free = freeName(connection, text.name, null);
    connection.run(
      'INSERT INTO passage (name, version, json, saved_at_epoch_ms) VALUES (:free, 1, :json, :atEpochMs)',
      {
        free,
        json,
        atEpochMs,
      },
    );
    const number = numberOf(connection, free) ?? 0;
    connection.run(
      'INSERT INTO passage_source (passage_number, file, folder, taken_hash, taken_at_epoch_ms, form_token) ' +
        'VALUES (:number, :file, :folder, :hash, :atEpochMs, :formToken)',
      { number, file, folder, atEpochMs, formToken, hash: textHash(json) },
    );
    point(file, number);
    return written(number);
  };

  return {
    takeOver: ({ file, folder, inPlaceOf, name, json, atEpochMs }) =>
      connection.write(() => {
        const found = shownOf(connection, file);
        if (found !== null && (found.number !== inPlaceOf?.number || found.version !== inPlaceOf.version))
          return failed(versionConflict(found.number, { expected: inPlaceOf?.version ?? 0, found: found.version }));
        return begin({ file, folder, name, json, atEpochMs, formToken: null });
      }),

    make: (text) =>
      connection.write(() => {
        const made = connection.first(
          numberSchema,
          'SELECT passage_number AS number FROM passage_source WHERE form_token = :formToken',
          { formToken: text.formToken },
        );
        if (made === null) return begin(text);
        point(text.file, made.number);
        return written(made.number);
      }),

    follow: (of, text) =>
      connection.write(() => {
        const replaced = replace(of, text);
        if (!replaced.ok) return replaced;
        connection.run(
          'UPDATE passage_source SET taken_hash = :hash, taken_at_epoch_ms = :atEpochMs WHERE passage_number = :number',
          { number: of.number, hash: textHash(text.json), atEpochMs: text.atEpochMs },
        );
        return written(of.number);
      }),

    save: (of, text) =>
      connection.write(() => {
        const replaced = replace(of, text);
        return replaced.ok ? written(of.number) : replaced;
      }),

    show: (file, number) =>
      connection.write(() => {
        if (byNumber(number)?.file !== file) return failed(noSuchPassage(number));
        point(file, number);
        return written(number);
      }),

    ...reading(connection),
  };
}

function reading(connection: Connection): Pick<DocumentStore, 'shown' | 'named' | 'list' | 'versions' | 'versionText'> {
  return {
    shown: (file) => connection.read(() => shownOf(connection, file)),
    named: (name) =>
      connection.read(() =>
        connection.first(documentSchema, `SELECT ${summaryColumns}, json FROM ${joined} WHERE name = :name`, { name }),
      ),
    list: (file) =>
      connection.read(() =>
        connection.all(summarySchema, `SELECT ${summaryColumns} FROM ${joined} WHERE file = :file ORDER BY number`, {
          file,
        }),
      ),
    versions: (number) =>
      connection.read(() =>
        connection.all(
          versionSummarySchema,
          'SELECT passage_number AS number, version, name, saved_at_epoch_ms AS savedAtEpochMs ' +
            'FROM passage_version WHERE passage_number = :number ORDER BY version',
          { number },
        ),
      ),
    versionText: ({ number, version }) =>
      connection.read(
        () =>
          connection.first(
            textSchema,
            'SELECT json FROM passage_version WHERE passage_number = :number AND version = :version',
            { number, version },
          )?.json ?? null,
      ),
  };
}

const shownOf = (connection: Connection, file: string): StoredDocument | null =>
  connection.first(
    documentSchema,
    `SELECT ${summaryColumns}, json FROM ${ofFile} WHERE file = :file AND passage_shown.passage_number = number`,
    { file },
  );

const numberOf = (connection: Connection, name: string): number | null =>
  connection.first(numberSchema, 'SELECT number FROM passage WHERE name = :name', { name })?.number ?? null;

/** The name, or with the lowest number behind it that no other passage has. */
function freeName(connection: Connection, name: string, ownNumber: number | null): string {
  const isFree = (candidate: string): boolean => [null, ownNumber].includes(numberOf(connection, candidate));
  if (isFree(name)) return name;
  let count = 2;
  while (!isFree(`${name} (${count})`)) count += 1;
  return `${name} (${count})`;
}
