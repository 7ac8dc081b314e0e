import type { OrderToSign, Signing } from './records-documents.ts';
import { nameOfBook } from './records-words.ts';

/** A kind of thing between the order and its release, and the first of its kind on the sheet. */
export interface StillOpen {
  /** What, with its number: "5 items are not finished". */
  words: string;
  /** Where the first of them is. */
  href: string;
  /** What stands there. */
  first: string;
}

interface Facts {
  items: readonly Pick<OrderToSign['items'][number], 'position' | 'title' | 'state'>[];
  findings: readonly Pick<OrderToSign['findings'][number], 'number' | 'title' | 'state'>[];
  /** Panels, parts and counts that keep anybody from signing, each in one sentence. */
  unclosed: readonly string[];
  leakChecks: readonly Pick<OrderToSign['leakChecks'][number], 'kind' | 'state'>[];
}

const count = (number: number, one: string, more: string) =>
  `${number} ${number === 1 ? one : more}`;

/**
 * What stands between an order and its release, in the order in which one does it; each row leads to
 * the first of its kind. Empty: only the release is left, or nothing.
 */
export function stillOpen(
  { items, findings, unclosed, leakChecks }: Facts,
  books: readonly Pick<Signing['books'][number], 'needed' | 'signed' | 'left' | 'book'>[],
): StillOpen[] {
  const noted = findings.filter(({ state }) => state === 'noted');
  const unfinished = items.filter(({ state }) => ['open', 'in_work', 'waiting'].includes(state));
  const done = items.filter(({ state }) => state === 'done');
  const looks = leakChecks.filter(({ state }) => !['dry', 'found'].includes(state));
  const toSign = books.filter(({ needed, signed, left }) => left > 0 || (needed && !signed));
  const rows: StillOpen[] = [];
  const [finding, item, initial, book] = [noted[0], unfinished[0], done[0], toSign[0]];
  if (finding !== undefined)
    rows.push({
      words: count(noted.length, 'finding is not assessed', 'findings are not assessed'),
      href: `#finding-${finding.number}`,
      first: `finding ${finding.number}, ${finding.title}`,
    });
  if (item !== undefined)
    rows.push({
      words: count(unfinished.length, 'item is not finished', 'items are not finished'),
      href: `#item-${item.position}`,
      first: `item ${item.position}, ${item.title}`,
    });
  if (initial !== undefined)
    rows.push({
      words: count(done.length, 'item waits for initials', 'items wait for initials'),
      href: `#item-${initial.position}`,
      first: `item ${initial.position}, ${initial.title}`,
    });
  const [open, look] = [unclosed[0], looks[0]];
  if (open !== undefined)
    rows.push({
      words: count(unclosed.length, 'thing is not closed', 'things are not closed'),
      href: '#open-things',
      first: open,
    });
  if (look !== undefined)
    rows.push({
      words: count(looks.length, 'leak check is not settled', 'leak checks are not settled'),
      href: '#leak-checks',
      first: look.kind === 'after_standing' ? 'after standing' : 'after the run-up',
    });
  if (book !== undefined)
    rows.push({
      words: count(toSign.length, 'book wants its entry', 'books want their entries'),
      href: '#entries',
      first: toSign.map((each) => nameOfBook(each.book)).join(', '),
    });
  return rows;
}
