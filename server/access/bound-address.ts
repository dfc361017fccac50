import { lookup } from 'node:dns/promises';
import { BlockList, isIP } from 'node:net';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';

/** Where the server listens, and who can get there. */
export interface BoundAddress {
  readonly address: string;
  /** Only programs of this machine can reach it. */
  readonly isLoopback: boolean;
}

/** RFC 1122 §3.2.1.3 and RFC 4291 §2.5.3, written as IPv4 in IPv6 too. */
const loopback = new BlockList();
loopback.addSubnet('127.0.0.0', 8, 'ipv4');
loopback.addAddress('::1', 'ipv6');

/** Every address there is: RFC 1122 §3.2.1.3 and RFC 4291 §2.5.2. */
const unspecified = new BlockList();
unspecified.addAddress('0.0.0.0', 'ipv4');
unspecified.addAddress('::', 'ipv6');

const isIn = (list: BlockList, address: string): boolean => {
  const plain = address.replace(/%.*$/s, '');
  return list.check(plain, isIP(plain) === 6 ? 'ipv6' : 'ipv4');
};

/** Whether an address, of a socket or given, is one of this machine that nobody else can reach. */
export const isLoopbackAddress = (address: string): boolean => isIP(address) !== 0 && isIn(loopback, address);

/**
 * The address behind what `--host` names. It is judged here and listened on as it is, so that a name cannot mean one
 * address now and another later.
 *
 * @returns the address, or `config.host-any`, `config.host-unknown`
 */
export async function boundAddress(host: string): Promise<Result<BoundAddress>> {
  const bare = /^\[(.*)\]$/s.exec(host)?.[1] ?? host;
  const address = isIP(bare) === 0 ? await addressOfName(bare) : bare;
  if (address === null) return failed(unknownHost(host));
  if (isIn(unspecified, address)) return failed(anyHost(host));
  return ok({ address, isLoopback: isIn(loopback, address) });
}

async function addressOfName(name: string): Promise<string | null> {
  if (name.trim() === '') return '0.0.0.0';
  try {
    return (await lookup(name)).address;
  } catch {
    return null;
  }
}

const anyHost = (host: string): Problem => ({
  code: 'config.host-any',
  where: '--host',
  what: `"${host}" would answer on every network of this machine.`,
  expected: 'one address of this machine',
  remedy: 'Name the address, or leave it out to use 127.0.0.1.',
});

const unknownHost = (host: string): Problem => ({
  code: 'config.host-unknown',
  where: '--host',
  what: `"${host}" is no address, and no name this machine knows.`,
  expected: 'one address of this machine, or a name for it',
  remedy: 'Write the address in figures, such as 192.168.1.7, or leave it out to use 127.0.0.1.',
});
