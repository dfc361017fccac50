import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { startFetch } from '../../server/fetchers/index.ts';
import {
  codesOf,
  type Fixture,
  fixture,
  GFS_WIND,
  joinOctets,
  messagesOf,
  requestFor,
  stillWorld,
  valueOf,
  whole,
} from './fetch-fixture.ts';
import { flakyServer, type FlakyServer } from './flaky-server.ts';
import { seededRandom } from './seeded-random.ts';

const messages = messagesOf(GFS_WIND);
const sha = (octets: Uint8Array): string => createHash('sha256').update(octets).digest('hex');

/** A GRIB file of drawn messages: 70 kB to 1.5 MB. */
function drawnFile(random: () => number): Uint8Array {
  const count = 1 + Math.floor(random() * 20);
  return joinOctets(
    Array.from({ length: count }, () => messages[Math.floor(random() * messages.length)] ?? new Uint8Array()),
  );
}

let at: Fixture;
let server: FlakyServer;

beforeEach(() => {
  at = fixture();
});
afterEach(async () => {
  await server.close();
  at.remove();
});

describe('a line on which 30 % of connections break at drawn places', () => {
  it('twenty drawn files, by servers with ranges, without, and without lengths: all arrive octet for octet', async () => {
    server = await flakyServer(0.3, 20_260_527);
    const random = seededRandom(7);
    const drawn = Array.from({ length: 20 }, () => drawnFile(random));
    for (const [index, octets] of drawn.entries()) {
      const kind = index % 4;
      server.files.set(`/${index}`, {
        octets,
        ignoresRanges: kind === 1,
        isChunked: kind === 2,
        ...(kind === 3 ? { etag: null } : {}),
      });
    }
    const wrong: number[] = [];
    for (const [index, octets] of drawn.entries()) {
      const job = startFetch(requestFor(at, [whole(`${server.root}/${index}`)]), stillWorld());
      const { hash } = valueOf(await job.finished);
      const written = new Uint8Array(readFileSync(at.outPath));
      if (hash !== sha(octets) || sha(written) !== sha(octets)) wrong.push(index);
    }
    expect(wrong).toEqual([]);
    const cutCount = server.seen.filter(({ wasCut }) => wasCut).length;
    expect(cutCount / server.seen.length).toBeGreaterThan(0.2);
    expect(server.seen.filter(({ range }) => range !== null).length).toBeGreaterThan(3);
    expect(readdirSync(at.folder)).toEqual(['out.grib2']);
  });

  it('twenty files as one forecast: joined in order, each once', async () => {
    server = await flakyServer(0.3, 11);
    const drawn = Array.from({ length: 20 }, (_, index) => messages[index % messages.length] ?? new Uint8Array());
    for (const [index, octets] of drawn.entries()) server.files.set(`/${index}`, { octets });
    const targets = drawn.map((_, index) => whole(`${server.root}/${index}`));
    const fetched = valueOf(await startFetch(requestFor(at, targets), stillWorld()).finished);
    expect(fetched.hash).toBe(sha(joinOctets(drawn)));
    expect(fetched.sizeOctets).toBe(joinOctets(drawn).length);
  });

  it('parts by an index: only their octets arrive, in file order', async () => {
    server = await flakyServer(0.3, 3);
    const all = joinOctets(messages);
    server.files.set('/f', { octets: all });
    const starts = messages.map((_, index) => joinOctets(messages.slice(0, index)).length);
    const lines = starts.map((start, index) => `${index + 1}:${start}:d=2016112000:M${index}:10 m above ground:x:`);
    server.files.set('/f.idx', { octets: new TextEncoder().encode(lines.join('\n')) });
    const wanted = [0, messages.length - 1].map((index) => ({
      quantity: 'wind' as const,
      keys: { parameter: `M${index}` },
    }));
    const target = {
      ...whole(`${server.root}/f`),
      index: { url: `${server.root}/f.idx`, kind: 'lines' as const, wanted, members: null },
    };
    const fetched = valueOf(await startFetch(requestFor(at, [target]), stillWorld()).finished);
    const parts = [messages[0] ?? new Uint8Array(), messages.at(-1) ?? new Uint8Array()];
    expect(messages.length).toBeGreaterThan(2);
    expect(fetched.hash).toBe(sha(joinOctets(parts)));
  });
});

describe('a fetch that is stopped', () => {
  it('goes on where it stopped, and asks only for the rest', async () => {
    server = await flakyServer(0, 1);
    const octets = joinOctets([...messages, ...messages]);
    server.files.set('/f', { octets });
    const request = requestFor(at, [whole(`${server.root}/f`)], { mostOctetsPerS: 50_000 });
    const world = stillWorld();
    const job = startFetch(request, {
      ...world,
      sleep: async (ms, signal) => {
        if (job.progress().gotOctets > 100_000) job.cancel();
        await world.sleep(ms, signal);
      },
    });
    const stopped = await job.finished;
    expect(codesOf(stopped)).toEqual(['fetch.cancelled']);
    expect(job.progress().phase).toBe('cancelled');
    expect(existsSync(at.outPath)).toBe(false);
    const [partName] = readdirSync(request.keepFolder).filter((name) => name.endsWith('.part'));
    const keptOctets = readFileSync(join(request.keepFolder, partName ?? '')).length;
    expect(keptOctets).toBeGreaterThan(100_000);
    const again = startFetch({ ...request, limits: { ...request.limits, mostOctetsPerS: null } }, stillWorld());
    expect(valueOf(await again.finished).hash).toBe(sha(octets));
    expect(server.seen.at(-1)?.range).toBe(`bytes=${keptOctets}-${octets.length - 1}`);
    expect(again.progress()).toMatchObject({ phase: 'done', gotOctets: octets.length, allOctets: octets.length });
  });

  it('the file changed meanwhile: begun again, nothing of the old one is in the new', async () => {
    server = await flakyServer(0, 1);
    const [first, second] = [joinOctets(messages), joinOctets(messages.toReversed())];
    expect(sha(first)).not.toBe(sha(second));
    server.files.set('/f', { octets: first });
    const request = requestFor(at, [whole(`${server.root}/f`)], { mostOctetsPerS: 50_000 });
    const world = stillWorld();
    const job = startFetch(request, {
      ...world,
      sleep: (ms, signal) => {
        job.cancel();
        return world.sleep(ms, signal);
      },
    });
    expect(codesOf(await job.finished)).toEqual(['fetch.cancelled']);
    server.files.set('/f', { octets: second });
    expect(valueOf(await startFetch(request, stillWorld()).finished).hash).toBe(sha(second));
    expect(server.seen.at(-1)?.range).toMatch(/^bytes=[1-9]\d*-\d+$/);
  });
});

describe('the same file twice at once', () => {
  it('the second fetch is refused, the first ends well', async () => {
    server = await flakyServer(0, 1);
    server.files.set('/f', { octets: GFS_WIND });
    const request = requestFor(at, [whole(`${server.root}/f`)], { mostOctetsPerS: 50_000 });
    const world = stillWorld();
    const second: (readonly string[])[] = [];
    const first = startFetch(request, {
      ...world,
      // In the middle of the first, which waits for its rate.
      sleep: async (ms, signal) => {
        if (second.length === 0) second.push(codesOf(await startFetch(request, stillWorld()).finished));
        await world.sleep(ms, signal);
      },
    });
    expect(codesOf(await first.finished)).toEqual([]);
    expect(second).toEqual([['fetch.busy']]);
    expect(sha(new Uint8Array(readFileSync(at.outPath)))).toBe(sha(GFS_WIND));
  });
});

describe('the cap on the rate', () => {
  it('so many octets take so long by the clock that is given', async () => {
    server = await flakyServer(0, 1);
    server.files.set('/f', { octets: GFS_WIND });
    const world = stillWorld();
    const beganEpochMs = world.nowEpochMs();
    const capOctetsPerS = 10_000;
    const request = requestFor(at, [whole(`${server.root}/f`)], { mostOctetsPerS: capOctetsPerS });
    const job = startFetch(request, world);
    valueOf(await job.finished);
    const tookS = (world.nowEpochMs() - beganEpochMs) / 1000;
    // The last piece, at most 64 kB from a socket, is not waited for.
    expect(tookS).toBeGreaterThanOrEqual((GFS_WIND.length - 65_536) / capOctetsPerS);
    expect(tookS).toBeLessThanOrEqual(GFS_WIND.length / capOctetsPerS + 1);
    expect(job.progress().octetsPerS).toBeLessThanOrEqual(capOctetsPerS * 1.3);
  });
});
