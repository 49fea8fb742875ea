/** The one judgement of what a mail address is: configuration, command line, pages and letters share it. */
import { domainToASCII } from 'node:url';

// Dot-atom of RFC 5321 with letters beyond ASCII allowed (RFC 6531); no quoted local parts, no address literals.
const LOCAL = /^[\p{L}\p{N}!#$%&'*+/=?^_`{|}~-]+(?:\.[\p{L}\p{N}!#$%&'*+/=?^_`{|}~-]+)*$/u;
const LABEL = /^[a-z0-9](?:[a-z0-9-]{0,61}[a-z0-9])?$/;

/** Longest address that fits in an SMTP path (RFC 5321, 4.5.3.1.3, with its erratum 1690), and longest local part. */
const MOST_OCTETS = { address: 254, local: 64 } as const;

/**
 * Address in the form it is kept and compared in: trimmed, small letters, the domain as the name service knows it
 * (UTS 46 maps full-width and capital letters, RFC 5891 writes others in ASCII), so that one mailbox is one reader.
 * A domain has at least two labels, but for `localhost`.
 *
 * @returns null when the text is not one plain address
 */
export function mailAddress(text: string): string | null {
  const written = text.trim().normalize('NFC');
  const at = written.lastIndexOf('@');
  const local = written.slice(0, Math.max(at, 0)).toLowerCase();
  const domain = domainOf(written.slice(at + 1));
  if (at < 1 || domain === null || !LOCAL.test(local)) return null;
  const address = `${local}@${domain}`;
  const fits =
    Buffer.byteLength(address) <= MOST_OCTETS.address && Buffer.byteLength(local) <= MOST_OCTETS.local;
  return fits ? address : null;
}

function domainOf(written: string): string | null {
  // What the name service would silently mend (spaces, slashes, numbers) is a slip and no domain.
  if (!/^[\p{L}\p{M}\p{N}.-]{1,254}$/u.test(written)) return null;
  const labels = domainToASCII(written).split('.');
  if (labels.length < 2 && labels[0] !== 'localhost') return null;
  const top = labels.at(-1) ?? '';
  return labels.every((label) => LABEL.test(label)) && /[a-z]/.test(top) ? labels.join('.') : null;
}
