const MOST = 60;

/**
 * A short readable name made of a title, unlike those that are taken.
 *
 * @example newKey('Replace the fuel hose, left', new Set(['replace-the-fuel-hose-left'])) // → 'replace-the-fuel-hose-left-2'
 */
export function newKey(title: string, taken: ReadonlySet<string>): string {
  const plain =
    title
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .slice(0, MOST)
      .replace(/^-+|-+$/g, '') || 'work';
  let key = plain;
  for (let again = 2; taken.has(key); again += 1) key = `${plain}-${again}`;
  return key;
}
