import { networkInterfaces } from 'node:os';

/**
 * An address of this machine that others could reach, or null with a printed line where it has none, so that the test can be
 * skipped. Where SLATCH_REQUIRE_TOOLS or CI is set that throws: nothing is skipped there unseen.
 */
export function ownAddress(
  interfaces: ReturnType<typeof networkInterfaces> = networkInterfaces(),
  environment: Readonly<Record<string, string | undefined>> = process.env,
): string | null {
  const found = Object.values(interfaces)
    .flatMap((all) => all ?? [])
    .find(({ family, internal }) => family === 'IPv4' && !internal);
  if (found !== undefined) return found.address;
  const say =
    'this machine has no address but the loopback (as root: ip link add slatch0 type dummy; ip addr add 192.0.2.2/24 dev slatch0; ip link set slatch0 up)';
  if (['SLATCH_REQUIRE_TOOLS', 'CI'].some((name) => !['', '0', 'false', undefined].includes(environment[name])))
    throw new Error(say);
  console.warn(`skipped: ${say}`);
  return null;
}
