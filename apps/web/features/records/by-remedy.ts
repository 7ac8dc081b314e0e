/** One thing that is missing, as the server says it. */
interface Missing {
  paragraph: string;
  what: string;
  remedy: string;
}

/** Things that are missing in the same way: who asks, what, what to do, and at which items. */
export interface MissingAlike {
  paragraph: string;
  what: string;
  remedy: string;
  /** What stands after the colon of each, such as "19 Inspect clutch"; empty where it is one thing of its own. */
  items: readonly string[];
}

/**
 * Puts together what is missing alike, in the order in which it first came. Nothing is left out and nothing said anew:
 * "initials on the item: 4 Plugs" and "initials on the item: 5 Harness" share the words before the colon.
 *
 * @example byRemedy([{ paragraph: 'shop rule', what: 'initials on the item: 4 Plugs', remedy: 'Look.' }])[0].items // → ['4 Plugs']
 */
export function byRemedy(missing: readonly Missing[]): MissingAlike[] {
  const groups = new Map<string, Missing & { items: string[] }>();
  for (const { paragraph, what, remedy } of missing) {
    const colon = what.indexOf(': ');
    const shared = colon < 0 ? what : what.slice(0, colon);
    const key = JSON.stringify([paragraph, shared, remedy]);
    const group = groups.get(key) ?? { paragraph, what: shared, remedy, items: [] };
    if (colon >= 0) group.items.push(what.slice(colon + 2));
    groups.set(key, group);
  }
  return [...groups.values()];
}
