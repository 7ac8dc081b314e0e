import type { EntryDraft, EntryItem } from './entry-draft.ts';

/** The same shape as a missing element of the regulation, under the shop's own name. */
interface ShopRuleBroken {
  readonly paragraph: 'shop rule';
  readonly what: string;
  readonly remedy: string;
}

/**
 * What the shop asks beyond the regulation before an entry is signed: no item still open, every item
 * initialled, a second person's look at critical items, every finding assessed, and nothing
 * unairworthy left uncorrected where the outcome says airworthy. The independent second look follows
 * the practice of EASA M.A.402(g); under part 91 it is common practice, no source.
 */
export function missingByShopRule({ items, findings, inspection }: EntryDraft): ShopRuleBroken[] {
  const broken = (titles: readonly string[], what: string, remedy: string): ShopRuleBroken[] =>
    titles.map((title) => ({ paragraph: 'shop rule', what: `${what}: ${title}`, remedy }));
  const titlesOf = (list: readonly { readonly title: string }[]) => list.map(({ title }) => title);
  const finished = items.filter(isFinished);
  const critical = finished.filter((item) => item.critical);
  const unresolved = findings.filter(
    (finding) => finding.class === 'unairworthy' && finding.state !== 'corrected',
  );
  return [
    ...broken(
      titlesOf(items.filter((item) => !isFinished(item) && item.state !== 'put_off')),
      'an end to the item still open',
      'Finish it, or put it off with a reason.',
    ),
    ...broken(
      titlesOf(finished.filter(({ initialledBy }) => isBlank(initialledBy))),
      'initials on the item',
      'Whoever checked it initials it; each item on its own.',
    ),
    ...broken(
      titlesOf(critical.filter((item) => !hasSecondLook(item))),
      'a second, independent look at the critical item',
      'Someone who did not do the work inspects it and signs for that.',
    ),
    ...broken(
      titlesOf(findings.filter(({ state }) => state === 'noted')),
      'an assessment of the finding',
      'A qualified person confirms its class.',
    ),
    ...broken(
      inspection?.outcome === 'airworthy' ? titlesOf(unresolved) : [],
      'the correction of what was found unairworthy',
      'Correct and record it, or choose the outcome "not airworthy, list given".',
    ),
  ];
}

function isFinished({ state }: EntryItem): boolean {
  return state === 'done' || state === 'inspected';
}

function isBlank(text: string | undefined): boolean {
  return text === undefined || text.trim() === '';
}

function hasSecondLook({ secondInspectionBy, performedBy }: EntryItem): boolean {
  return (
    secondInspectionBy !== undefined &&
    secondInspectionBy.trim() !== '' &&
    !performedBy.includes(secondInspectionBy)
  );
}
