import { describe, expect, it } from 'vitest';
import { boundAddress, isLoopbackAddress } from '../../server/access/bound-address.ts';
import { addressOf } from '../../server/access/socket-address.ts';

/** Loopback: RFC 1122 §3.2.1.3 (127/8), RFC 4291 §2.5.3 (::1), §2.5.5.2 (IPv4 written as IPv6). */
describe('isLoopbackAddress', () => {
  it.each(['127.0.0.1', '127.0.0.2', '127.255.255.254', '::1', '0:0:0:0:0:0:0:1', '::ffff:127.0.0.1'])(
    '%s',
    (address) => {
      expect(isLoopbackAddress(address)).toBe(true);
    },
  );

  it.each(['126.255.255.255', '128.0.0.1', '192.0.2.7', '::', '::2', 'fe80::1', '::ffff:192.0.2.7', 'localhost', ''])(
    '%j: not',
    (address) => {
      expect(isLoopbackAddress(address)).toBe(false);
    },
  );
});

describe('boundAddress', () => {
  it.each([
    ['127.0.0.1', '127.0.0.1', true],
    ['127.9.9.9', '127.9.9.9', true],
    ['::1', '::1', true],
    ['[::1]', '::1', true],
    ['192.0.2.7', '192.0.2.7', false],
    ['2001:db8::7', '2001:db8::7', false],
    ['fe80::7%eth0', 'fe80::7%eth0', false],
  ])('%s: %s, loopback %s', async (host, address, isLoopback) => {
    expect(await boundAddress(host)).toEqual({ ok: true, value: { address, isLoopback } });
  });

  it('localhost: whatever it means here is of this machine alone (RFC 6761 §6.3)', async () => {
    const bound = await boundAddress('localhost');
    expect(bound.ok && bound.value.isLoopback).toBe(true);
  });

  /** Forms of the address that means all: RFC 4291 §2.2, and the shortened IPv4 of inet_aton (POSIX inet_addr). */
  it.each(['0.0.0.0', '0', '0x0', '0.0', '::', '[::]', '0:0:0:0:0:0:0:0', '::ffff:0.0.0.0', '', ' '])(
    '%j: every network at once, refused',
    async (host) => {
      const bound = await boundAddress(host);
      expect(bound.ok ? bound.value : bound.problems.map(({ code }) => code)).toEqual(['config.host-any']);
    },
  );

  it('a name nobody knows: refused (RFC 6761 §6.4: .invalid)', async () => {
    const bound = await boundAddress('boat.invalid');
    expect(bound.ok ? bound.value : bound.problems.map(({ code }) => code)).toEqual(['config.host-unknown']);
  });
});

describe('addressOf', () => {
  it.each([
    ['192.0.2.7', '192.0.2.7'],
    ['::ffff:192.0.2.7', '192.0.2.7'],
    ['2001:db8::7', '2001:db8::7'],
    [undefined, ''],
  ])('%s: %s', (remoteAddress, address) => {
    expect(addressOf({ remoteAddress })).toBe(address);
  });
});
