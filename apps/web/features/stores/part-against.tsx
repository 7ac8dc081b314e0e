import type { IssueException } from '../../graphql/generated/graphql.ts';
import { againstText } from './issue-against.ts';
import styles from './part-against.module.css';

/** What somebody answered for when a part was issued, wherever the part is shown. */
export function PartAgainst({
  issues,
}: {
  /** Undefined where a telephone kept the part before this was asked for. */
  issues:
    | readonly {
        id: string;
        despite: readonly IssueException[];
        reason: string;
        by: { name: string } | null;
      }[]
    | undefined;
}) {
  return (issues ?? []).map(({ id, despite, reason, by }) => (
    <span key={id} className={styles.against}>
      {' '}
      Issued {againstText(despite)} by {by?.name ?? 'nobody named'}: “{reason}”
    </span>
  ));
}
