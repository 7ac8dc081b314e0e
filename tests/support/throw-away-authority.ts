import { generateKeyPairSync, type KeyObject, randomBytes, sign } from 'node:crypto';

/** DER (ITU-T X.690): a tag, a length, what is in it. */
function der(tag: number, ...content: Buffer[]): Buffer {
  const inside = Buffer.concat(content);
  const { length } = inside;
  const head =
    length < 128
      ? [tag, length]
      : length < 256
        ? [tag, 0x81, length]
        : [tag, 0x82, length >> 8, length & 255];
  return Buffer.concat([Buffer.from(head), inside]);
}
const sequence = (...content: Buffer[]) => der(0x30, ...content);
const oid = (hex: string) => der(0x06, Buffer.from(hex, 'hex'));
const ECDSA_WITH_SHA256 = sequence(oid('2a8648ce3d040302'));
const utcTime = (at: Date) =>
  der(0x17, Buffer.from(`${at.toISOString().replace(/[-:T]/g, '').slice(2, 14)}Z`));
const nameOf = (words: string) =>
  sequence(der(0x31, sequence(oid('550403'), der(0x0c, Buffer.from(words)))));
/** An extension that has to be understood (RFC 5280, 4.2). */
const extension = (id: string, value: Buffer) =>
  sequence(oid(id), der(0x01, Buffer.from([0xff])), der(0x04, value));
const basicConstraints = (authority: boolean) =>
  extension('551d13', authority ? sequence(der(0x01, Buffer.from([0xff]))) : sequence());
const names = ({ ip, dns }: { ip?: string; dns?: string }) =>
  extension(
    '551d11',
    sequence(
      ...(ip ? [der(0x87, Buffer.from(ip.split('.').map(Number)))] : []),
      ...(dns ? [der(0x82, Buffer.from(dns))] : []),
    ),
  );

const DAY = 86_400_000;
const pem = (bytes: Buffer) =>
  [
    '-----BEGIN CERTIFICATE-----',
    ...(bytes.toString('base64').match(/.{1,64}/g) ?? []),
    '-----END CERTIFICATE-----',
    '',
  ].join('\n');

interface Signer {
  name: string;
  privateKey: KeyObject;
}
const pair = () => generateKeyPairSync('ec', { namedCurve: 'P-256' });

/** A certificate (X.509, RFC 5280, 4.1) for a key, signed by whoever vouches for it. */
function certificate(
  subject: string,
  publicKey: KeyObject,
  by: Signer,
  { extensions, days = [-1, 1] }: { extensions: Buffer[]; days?: readonly [number, number] },
): string {
  const [from, until] = days.map((day) => utcTime(new Date(Date.now() + day * DAY)));
  const serial = Buffer.concat([Buffer.from([0x01]), randomBytes(8)]);
  const body = sequence(
    der(0xa0, der(0x02, Buffer.from([2]))),
    der(0x02, serial),
    ECDSA_WITH_SHA256,
    nameOf(by.name),
    sequence(from!, until!),
    nameOf(subject),
    publicKey.export({ type: 'spki', format: 'der' }),
    der(0xa3, sequence(...extensions)),
  );
  const signature = der(0x03, Buffer.from([0]), sign('sha256', body, by.privateKey));
  return pem(sequence(body, ECDSA_WITH_SHA256, signature));
}

/** A key and its certificate, as a server takes them. */
export interface ServerCertificate {
  key: string;
  cert: string;
}

type ForServer = { ip?: string; dns?: string; days?: readonly [number, number] };
const keyText = (key: KeyObject) => key.export({ type: 'pkcs8', format: 'pem' }).toString();

/** An authority of one test, which vouches for servers; nobody else knows it. */
export function throwAwayAuthority(name = 'Authority of a test') {
  const own = pair();
  const signer = { name, privateKey: own.privateKey };
  return {
    cert: certificate(name, own.publicKey, signer, { extensions: [basicConstraints(true)] }),
    vouchFor({ days, ...asked }: ForServer): ServerCertificate {
      const server = pair();
      return {
        key: keyText(server.privateKey),
        cert: certificate('A mail server', server.publicKey, signer, {
          extensions: [basicConstraints(false), names(asked)],
          ...(days && { days }),
        }),
      };
    },
  };
}

/** A server that vouches for itself. */
export function selfSigned(asked: ForServer): ServerCertificate {
  const own = pair();
  const name = 'A mail server';
  return {
    key: keyText(own.privateKey),
    cert: certificate(
      name,
      own.publicKey,
      { name, privateKey: own.privateKey },
      { extensions: [basicConstraints(false), names(asked)] },
    ),
  };
}
