/** Forms with files, as they are read; RFC 7578. */
import express from 'express';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { describe, expect, it, onTestFinished } from 'vitest';
import { PageError } from '../../server/routes/page-error.ts';
import { readSmall, readUpload, type TakeFile } from '../../server/uploads/index.ts';

/** Sends the form to a server that reads it so; what the form held, or the status it was refused with. */
async function read(body: FormData | string, takeFile: TakeFile, mostFileOctets = 1000): Promise<unknown> {
  // oxlint-disable-next-line oxc/no-async-endpoint-handlers -- Express 5 takes rejections itself
  const app = express().post('/', async (request, response) => {
    try {
      const form = await readUpload(request, { takeFile, mostFileOctets });
      response.json(form.names.map((name) => [name, ...form.all(name)]));
    } catch (error) {
      response.json(error instanceof PageError ? error.status : String(error));
    }
  });
  const server = createServer(app);
  await new Promise<void>((settle) => server.listen(0, '127.0.0.1', settle));
  onTestFinished(() => {
    server.closeAllConnections();
    server.close();
  });
  const answer = await fetch(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`, {
    method: 'POST',
    body,
    ...(typeof body === 'string' ? { headers: { 'Content-Type': 'multipart/form-data; boundary=edge' } } : {}),
  });
  return answer.json();
}

const formWith = (files: readonly (readonly [name: string, octetCount: number])[]): FormData => {
  const form = new FormData();
  form.append('first', 'é');
  for (const [name, octetCount] of files) form.append('file', new File(['x'.repeat(octetCount)], name));
  form.append('last', '1');
  form.append('last', '2');
  return form;
};

describe('readUpload', () => {
  it('texts and files: the texts by name in order, each file to its end', async () => {
    const seen: (readonly [string, string, number | undefined])[] = [];
    const takeFile: TakeFile = async ({ field, fileName, content }) => {
      seen.push([field, fileName, (await readSmall(content, 1000))?.length]);
    };
    const form = formWith([
      ['a/b.grib', 10],
      ['ü.grib', 1000],
    ]);
    expect(await read(form, takeFile)).toEqual([
      ['first', 'é'],
      ['last', '1', '2'],
    ]);
    expect(seen).toEqual([
      ['file', 'b.grib', 10],
      ['file', 'ü.grib', 1000],
    ]);
  });

  it('a file longer than allowed, one left unread, one that is no use: the rest of the form is read all the same', async () => {
    const seen: unknown[] = [];
    const takeFile: TakeFile = async ({ fileName, content }) => {
      if (fileName === 'long') seen.push(await readSmall(content, 100_000));
      if (fileName === 'half') for await (const chunk of content) if (chunk.length > 0) break;
    };
    const form = formWith([
      ['half', 900_000],
      ['unread', 900_000],
      ['long', 900_000],
    ]);
    expect(await read(form, takeFile, 100_000)).toEqual([
      ['first', 'é'],
      ['last', '1', '2'],
    ]);
    expect(seen).toEqual([null]);
  });

  it('what the taker throws: thrown, after the form was read', async () => {
    const form = formWith([['a', 500]]);
    expect(await read(form, () => Promise.reject(new Error('disk')))).toBe('Error: disk');
  });

  it('a file begun after a part that is broken, and cut by the end of what was sent first: 400, no file is waited for', async () => {
    const part = (name: string, octetCount: number): string =>
      `--edge\r\nContent-Disposition: form-data; name="file"; filename="${name}"\r\n\r\n${'x'.repeat(octetCount)}\r\n`;
    const ended: string[] = [];
    const takeFile: TakeFile = async ({ fileName, content }) => {
      await new Promise((settle) => setTimeout(settle, 5));
      const failure = await readSmall(content, 1e6).catch(() => 'torn');
      ended.push(`${fileName} ${failure === 'torn' ? 'torn' : 'whole'}`);
    };
    const body = `${part('first', 10)}${part('a\0b', 10)}${part('cut', 200_000)}--edge--\r\n`;
    expect(await read(body, takeFile, 1e6)).toBe(400);
    expect(ended).toEqual(['first whole', 'cut torn']);
  });

  it('more files than are taken at once: 413', async () => {
    const form = formWith(Array.from({ length: 21 }, (_, index) => [`f${index}`, 1] as const));
    expect(await read(form, () => Promise.resolve())).toBe(413);
  });
});
