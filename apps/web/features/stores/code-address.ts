import { lotHref, partHref } from './addresses.ts';
import type { FoundInStores } from './find-documents.ts';

/**
 * The sheet that a code read by the camera is the address of, where it is one of this shop's own: a code on a label of ours.
 *
 * @param origin this shop's own origin, such as `https://shop.example`
 * @example ownAddress('https://shop.example/stores/lots/TG90', 'https://shop.example') // → '/stores/lots/TG90'
 * @example ownAddress('https://other.example/stores/lots/TG90', 'https://shop.example') // → null
 */
export function ownAddress(code: string, origin: string): string | null {
  if (!code.startsWith(`${origin}/stores/`)) return null;
  const path = code.slice(origin.length);
  return /^\/stores\/(lots|parts)\/[\w%-]{1,200}$/.test(path) ? path : null;
}

/** Where what was found is shown, where it is one thing: a lot, or a part; null where it is none or several. */
export function oneAddress({ lots, parts }: FoundInStores): string | null {
  const [lot, part] = [lots[0], parts[0]];
  if (lots.length === 1 && parts.length === 0 && lot !== undefined) return lotHref(lot.id);
  if (parts.length === 1 && lots.length === 0 && part !== undefined) return partHref(part.id);
  return null;
}
