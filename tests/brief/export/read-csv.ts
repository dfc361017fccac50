/** CSV read by the grammar of RFC 4180, section 2, to check ours: it throws where the grammar is left. */

const FIELD = /"(?<quoted>(?:[^"]|"")*)"|(?<bare>[^",\r\n]*)/y;

/** The records of a text, header included, all of the same number of fields. */
export function readCsv(text: string): string[][] {
  if (!text.endsWith('\r\n')) throw new Error('RFC 4180, 2.1: each record ends with CRLF');
  const records: string[][] = [];
  let [at, record] = [0, emptyRecord()];
  while (at < text.length) {
    FIELD.lastIndex = at;
    const groups = FIELD.exec(text)?.groups;
    record.push(groups?.['quoted']?.replaceAll('""', '"') ?? groups?.['bare'] ?? '');
    at = FIELD.lastIndex;
    if (text.startsWith('\r\n', at)) {
      records.push(record);
      [at, record] = [at + 2, emptyRecord()];
    } else if (text[at] === ',') at += 1;
    else throw new Error(`RFC 4180, 2.5: comma or CRLF expected, found ${JSON.stringify(text.slice(at, at + 10))}`);
  }
  const lengths = new Set(records.map(({ length }) => length));
  if (lengths.size > 1) throw new Error(`RFC 4180, 2.4: records of ${[...lengths].join(' and ')} fields`);
  return records;
}

const emptyRecord = (): string[] => [];
