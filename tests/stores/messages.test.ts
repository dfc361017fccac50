import Database from 'libsql';
import { chmodSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { failed, ok } from '../../lib/result/index.ts';
import type { NewReceivedMessage, NewSentMessage } from '../../server/stores/messages.ts';
import { readMessageKey } from '../../server/stores/message-key.ts';
import { migrations } from '../../server/stores/migrations/index.ts';
import { aPassage, codesOf, freshFolder, freshStore, valueOf } from './store-fixture.ts';

const sent: NewSentMessage = {
  passageNumber: 1,
  kind: 'plan',
  sender: 'SH',
  madeAtEpochMs: 3,
  ofJson: '{}',
  writtenAtEpochMs: 4,
  formToken: 'form-1',
  seal: (counterNumber) =>
    ok({ text: `P.SH.${counterNumber}`, fingerprint: `F${counterNumber}`, signature: 'unsigned' }),
};
const received: NewReceivedMessage = {
  passageNumber: 1,
  kind: 'report',
  sender: 'LW',
  counterNumber: 5,
  fingerprint: 'ABC',
  signature: 'verified',
  madeAtEpochMs: 3,
  text: 'R.LW.5',
  ofJson: '{}',
  writtenAtEpochMs: 4,
};

const withPassages = (folder?: string): ReturnType<typeof freshStore> => {
  const store = freshStore(folder);
  store.passages.create(aPassage);
  store.passages.create({ ...aPassage, name: 'Another' });
  return store;
};

describe('messages written here', () => {
  it('counted by kind and sender, over all passages; numbered within their own', () => {
    const { messages } = withPassages();
    const first = valueOf(messages.appendSent(sent));
    expect(first).toMatchObject({
      number: 1,
      counterNumber: 1,
      direction: 'sent',
      text: 'P.SH.1',
      formToken: 'form-1',
    });
    const elsewhere = valueOf(messages.appendSent({ ...sent, passageNumber: 2, formToken: 'form-2' }));
    expect(elsewhere).toMatchObject({ number: 1, counterNumber: 2, text: 'P.SH.2' });
    const others = [{ kind: 'digest' }, { sender: 'LW' }].map((of, index) =>
      valueOf(messages.appendSent({ ...sent, ...of, formToken: `other-${index}` })),
    );
    expect(others.map(({ counterNumber, number }) => [counterNumber, number])).toEqual([
      [1, 2],
      [1, 3],
    ]);
    expect(valueOf(messages.lastSentCounter('plan', 'SH'))).toBe(2);
    expect(valueOf(messages.lastSentCounter('plan', 'XY'))).toBe(0);
    expect(valueOf(messages.get(1, 1))).toEqual(first);
    expect(valueOf(messages.get(1, 9))).toBeNull();
  });

  it('the same form twice: the first is the answer, and no number is used', () => {
    const { messages } = withPassages();
    const first = valueOf(messages.appendSent(sent));
    expect(valueOf(messages.appendSent(sent))).toEqual(first);
    expect(valueOf(messages.ofForm(1, 'form-1'))).toEqual(first);
    expect(valueOf(messages.ofForm(2, 'form-1'))).toBeNull();
    expect(valueOf(messages.lastSentCounter('plan', 'SH'))).toBe(1);
  });

  it('what cannot be written: no number is used; one that is used up: refused', () => {
    const { messages } = withPassages();
    const problem = { code: 'x.y', where: '', what: '', expected: '', remedy: '' };
    expect(codesOf(messages.appendSent({ ...sent, seal: () => failed(problem) }))).toEqual(['x.y']);
    expect(valueOf(messages.appendSent({ ...sent, leastCounterNumber: 7 })).counterNumber).toBe(7);
    const again = { ...sent, formToken: 'form-2', leastCounterNumber: 7 };
    expect(codesOf(messages.appendSent(again))).toEqual(['message.counter-used']);
    expect(codesOf(messages.appendSent({ ...sent, passageNumber: 9, formToken: 'f' }))).toEqual([
      'store.no-such-passage',
    ]);
  });
});

describe('messages that came in', () => {
  it('the same one again: the first is the answer; in another passage or with another signature: its own', () => {
    const { messages } = withPassages();
    const first = valueOf(messages.appendReceived(received));
    expect(valueOf(messages.appendReceived(received))).toEqual(first);
    expect(valueOf(messages.appendReceived({ ...received, signature: 'unsigned' })).number).toBe(2);
    expect(valueOf(messages.appendReceived({ ...received, passageNumber: 2 })).number).toBe(1);
    expect(valueOf(messages.list(1)).map(({ number }) => number)).toEqual([1, 2]);
  });

  it('the last of a sender: by kind and signature, over all passages, with its own fingerprint', () => {
    const { messages } = withPassages();
    messages.appendReceived({ ...received, counterNumber: 9, fingerprint: 'NINE', passageNumber: 2 });
    messages.appendReceived(received);
    messages.appendReceived({ ...received, counterNumber: 900, fingerprint: 'HIGH', signature: 'unsigned' });
    messages.appendReceived({ ...received, sender: 'XY', counterNumber: 30, fingerprint: 'OTHER' });
    const last = valueOf(messages.lastReceived('LW')).toSorted((a, b) => a.counterNumber - b.counterNumber);
    expect(last).toEqual([
      { kind: 'report', sender: 'LW', counterNumber: 9, fingerprint: 'NINE', signature: 'verified' },
      { kind: 'report', sender: 'LW', counterNumber: 900, fingerprint: 'HIGH', signature: 'unsigned' },
    ]);
  });
});

describe('the table', () => {
  it('cannot be changed or deleted, not even by SQL', () => {
    const folder = freshFolder();
    const { messages } = withPassages(folder);
    messages.appendSent(sent);
    const database = new Database(join(folder, 'slatch.db'));
    onTestFinished(() => void database.close());
    expect(() => database.exec("UPDATE message SET text = 'x'")).toThrow('only added to');
    expect(() => database.exec('DELETE FROM message')).toThrow('only added to');
  });

  it('a store without it: is brought up to date', () => {
    const folder = freshFolder();
    const old = new Database(join(folder, 'slatch.db'));
    old.exec(`${migrations.slice(0, 4).join(';')}; PRAGMA user_version = 4;`);
    old.close();
    expect(valueOf(withPassages(folder).messages.appendSent(sent)).counterNumber).toBe(1);
  });
});

describe('the key of messages', () => {
  const keyIn = (text: string): ReturnType<typeof readMessageKey> => {
    const file = join(freshFolder(), 'key.txt');
    writeFileSync(file, text, { mode: 0o600 });
    return readMessageKey(file);
  };

  it('a file that others may read, or what is no file: refused, and how to mend it is said', () => {
    const file = join(freshFolder(), 'key.txt');
    for (const mode of [0o644, 0o640, 0o604]) {
      writeFileSync(file, '0123456789abcdef');
      chmodSync(file, mode);
      const refused = readMessageKey(file, 'linux');
      expect(codesOf(refused)).toEqual(['message.key-open']);
      expect(JSON.stringify(refused)).toContain(`chmod 600 ${file}`);
      // Windows has no such permissions: every file looks open there.
      expect(valueOf(readMessageKey(file, 'win32'))).toHaveLength(16);
    }
    expect(codesOf(readMessageKey(freshFolder()))).toEqual(['message.key-file']);
    expect(codesOf(readMessageKey('/dev/zero'))).toEqual(['message.key-file']);
  });

  it('line ends behind it are not part of it; anything else is', () => {
    const key = new TextEncoder().encode(' 0123456789abcdef ');
    for (const end of ['', '\n', '\r\n', '\n\n']) expect(valueOf(keyIn(` 0123456789abcdef ${end}`))).toEqual(key);
  });

  it('too short, too long, not there: refused without showing any of it', () => {
    const short = keyIn('secret\n');
    expect(codesOf(short)).toEqual(['message.key-short']);
    expect(JSON.stringify(short)).not.toContain('secret');
    expect(codesOf(keyIn('x'.repeat(5000)))).toEqual(['message.key-file']);
    expect(codesOf(readMessageKey(join(freshFolder(), 'none')))).toEqual(['message.key-file']);
  });
});
