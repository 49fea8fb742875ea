/** Who asks: the address that a limit is counted by. */
import { BlockList, isIP, isIPv6 } from 'node:net';
import { getConnInfo } from '@hono/node-server/conninfo';
import type { Context } from 'hono';
import { ThawlineError } from '../units/index.ts';

/** Who may say for whom it asks, when the configuration names nobody: a proxy on this machine. */
export const LOOPBACK: readonly string[] = ['127.0.0.0/8', '::1'];

/** IPv4 addresses come as themselves also where the socket is one of IPv6 (RFC 4291, 2.5.5.2). */
const plain = (address: string): string =>
  address.startsWith('::ffff:') && isIP(address.slice(7)) === 4 ? address.slice(7) : address;

/**
 * List of trusted addresses and networks.
 *
 * @param networks `10.0.0.7`, `10.0.0.0/8`, `fd00::/8`
 * @throws ThawlineError `config` when one of them is no address or network
 */
export function trustList(networks: readonly string[]): (address: string) => boolean {
  const list = new BlockList();
  for (const network of networks) {
    const [address = '', bits, ...more] = network.split('/');
    const kind = isIP(address) === 6 ? 'ipv6' : 'ipv4';
    const most = kind === 'ipv6' ? 128 : 32;
    const prefix = bits === undefined ? most : /^\d{1,3}$/.test(bits) ? Number(bits) : -1;
    if (isIP(address) === 0 || more.length > 0 || prefix < 0 || prefix > most)
      throw new ThawlineError(
        'config',
        `web.trustProxy: "${network}" is neither an address nor a network, such as 10.0.0.7 or fd00::/8.`,
      );
    list.addSubnet(address, prefix, kind);
  }
  return (address) => {
    const known = plain(address);
    return isIP(known) !== 0 && list.check(known, isIPv6(known) ? 'ipv6' : 'ipv4');
  };
}

/** One household or server has a whole /64 of IPv6 (RFC 6177 gives no end site less), so that is what is counted. */
export function countedBy(address: string): string {
  const known = plain(address);
  if (!isIPv6(known)) return known;
  // The zone of a link-local address says which wire, not who.
  const [written = ''] = known.split('%');
  const [head = '', tail] = written.split('::');
  const groups = (text: string): string[] => (text === '' ? [] : text.split(':'));
  const front = groups(head);
  const back = tail === undefined ? [] : groups(tail);
  // A dotted end stands for two groups.
  const taken = back.length + (back.at(-1)?.includes('.') === true ? 1 : 0);
  const zeros = tail === undefined ? 0 : Math.max(0, 8 - front.length - taken);
  const all = [...front, ...Array<string>(zeros).fill('0'), ...back];
  return `${all
    .slice(0, 4)
    .map((group) => Number.parseInt(group, 16).toString(16))
    .join(':')}::/64`;
}

/**
 * The visitor's address. What `X-Forwarded-For` says is believed from the right, as long as the one who says it is
 * trusted: anybody can write anything to its left.
 */
export function visitorOf(c: Context, isTrusted: (address: string) => boolean): string {
  let at: string;
  try {
    at = plain(getConnInfo(c).remote.address ?? '');
  } catch {
    at = '127.0.0.1'; // asked without a socket, as a test does
  }
  const named = (c.req.header('x-forwarded-for') ?? '').slice(-2000).split(',').reverse();
  for (const text of named) {
    const address = plain(text.trim());
    if (!isTrusted(at) || isIP(address) === 0) break;
    at = address;
  }
  return countedBy(at);
}
