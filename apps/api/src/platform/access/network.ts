import ipaddr from 'ipaddr.js';

/** Whether somebody asks from the machine itself. */
export const isThisMachine = (address: string): boolean => ipaddr.isValid(address) && ipaddr.process(address).range() === 'loopback';

/** The network that somebody asks from, as far as it says who they are: an IPv4 address, or the /64 of an IPv6 one, of which a household has 2^64 addresses. */
export function networkOf(address: string): string {
  if (!ipaddr.isValid(address)) return 'unknown';
  const parsed = ipaddr.process(address);
  return parsed instanceof ipaddr.IPv6
    ? `${parsed.parts
        .slice(0, 4)
        .map((part) => part.toString(16))
        .join(':')}::/64`
    : parsed.toString();
}
