import { X509Certificate } from 'node:crypto';
import { readFileSync } from 'node:fs';

const ONE = /-----BEGIN CERTIFICATE-----[\s\S]+?-----END CERTIFICATE-----/g;

/**
 * The certificates of the authorities in a PEM file (RFC 7468), each as a text of its own.
 *
 * @returns null where there is no such file, or anything but certificates of authorities is in it
 */
export function readAuthorities(file: string): string[] | null {
  try {
    const found = readFileSync(file, 'utf8').match(ONE) ?? [];
    return found.length > 0 && found.every((pem) => new X509Certificate(pem).ca) ? found : null;
  } catch {
    return null;
  }
}
