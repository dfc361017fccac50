import { isIPv4 } from 'node:net';

/**
 * The address of the other end of a line; IPv4 written as IPv6 is IPv4. What a request says of itself
 * (`X-Forwarded-For`) is not looked at: anyone can write it.
 */
export function addressOf({ remoteAddress = '' }: { readonly remoteAddress?: string | undefined }): string {
  const ipv4 = remoteAddress.replace(/^::ffff:/i, '');
  return isIPv4(ipv4) ? ipv4 : remoteAddress;
}
