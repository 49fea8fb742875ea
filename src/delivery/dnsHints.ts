/** What the sender's DNS says to receivers: hints for the operator, never a reason to stop. */
import type { Config } from '../config/index.ts';
import { sender } from './headers.ts';

/** Looks up the TXT records of a name; rejects when there are none or no network. */
export type TxtLookup = (name: string) => Promise<readonly (readonly string[])[]>;

export interface DnsHint {
  readonly subject: 'SPF' | 'DKIM' | 'DMARC';
  readonly ok: boolean;
  readonly sentence: string;
}

const codeOf = (error: unknown): unknown =>
  error instanceof Error && 'code' in error ? error.code : undefined;

async function texts(lookup: TxtLookup, name: string): Promise<string[] | null> {
  try {
    return (await lookup(name)).map((parts) => parts.join(''));
  } catch (error) {
    const code = codeOf(error);
    // No such name, or no such record: an answer. Everything else: no answer.
    return code === 'ENOTFOUND' || code === 'ENODATA' ? [] : null;
  }
}

/** Whether the name server says that there is no such name at all: then what is missing below it says nothing. */
async function isNoName(lookup: TxtLookup, name: string): Promise<boolean> {
  try {
    await lookup(name);
    return false;
  } catch (error) {
    return codeOf(error) === 'ENOTFOUND';
  }
}

/**
 * Hints on SPF (RFC 7208), DKIM (RFC 6376) and DMARC (RFC 7489) of the sender's domain.
 *
 * @throws ThawlineError `config` when mail.from holds no address
 */
export async function dnsHints(
  mail: Pick<Config['mail'], 'from' | 'dkim'>,
  lookup: TxtLookup,
): Promise<DnsHint[]> {
  const { address } = sender(mail.from);
  const domain = address.slice(address.lastIndexOf('@') + 1);
  if (await isNoName(lookup, domain)) {
    const sentence = `the name server knows no ${domain} at all: correct mail.from, or give this machine a name server that answers.`;
    return (['SPF', 'DKIM', 'DMARC'] as const).map((subject) => ({ subject, ok: false, sentence }));
  }
  const unknown = 'could not be looked up: no network, or the name server does not answer.';
  const spf = await texts(lookup, domain);
  const dmarc = await texts(lookup, `_dmarc.${domain}`);
  return [
    spfHint(domain, spf, unknown),
    await dkimHint(mail, domain, lookup, unknown),
    dmarcHint(domain, dmarc, unknown),
  ];
}

function spfHint(domain: string, found: string[] | null, unknown: string): DnsHint {
  const records = found?.filter((text) => /^v=spf1(\s|$)/i.test(text)) ?? [];
  const sentence =
    found === null
      ? `The SPF record ${unknown}`
      : records.length === 1
        ? `${domain} has an SPF record: make sure it names your mail provider.`
        : records.length === 0
          ? `${domain} has no SPF record: publish the one your mail provider names.`
          : `${domain} has ${records.length} SPF records, which receivers treat as none: merge them into one.`;
  return { subject: 'SPF', ok: records.length === 1, sentence };
}

async function dkimHint(
  mail: Pick<Config['mail'], 'dkim'>,
  domain: string,
  lookup: TxtLookup,
  unknown: string,
): Promise<DnsHint> {
  if (mail.dkim === undefined) {
    const sentence = 'mail.dkim is not set: fine only when your provider signs for your domain.';
    return { subject: 'DKIM', ok: false, sentence };
  }
  const aligned = domain === mail.dkim.domain || domain.endsWith(`.${mail.dkim.domain}`);
  if (!aligned) {
    const sentence = `mail.dkim.domain is ${mail.dkim.domain}, but mail comes from ${domain}: DMARC wants them to agree.`;
    return { subject: 'DKIM', ok: false, sentence };
  }
  const name = `${mail.dkim.selector}._domainkey.${mail.dkim.domain}`;
  const found = await texts(lookup, name);
  const ok = found?.some((text) => /(^|;)\s*p=[A-Za-z0-9+/]/.test(text)) ?? false;
  const sentence =
    found === null
      ? `The DKIM key ${unknown}`
      : ok
        ? `${name} holds a public key.`
        : `${name} holds no public key: publish the one that belongs to mail.dkim.keyFile.`;
  return { subject: 'DKIM', ok, sentence };
}

function dmarcHint(domain: string, found: string[] | null, unknown: string): DnsHint {
  const ok = found?.some((text) => /^v=DMARC1\s*;/i.test(text)) ?? false;
  const sentence =
    found === null
      ? `The DMARC record ${unknown}`
      : ok
        ? `${domain} has a DMARC record.`
        : `${domain} has no DMARC record: publish _dmarc.${domain} TXT "v=DMARC1; p=none", and tighten it later.`;
  return { subject: 'DMARC', ok, sentence };
}
