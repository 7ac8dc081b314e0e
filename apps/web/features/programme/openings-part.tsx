import { Button } from '../../components/Button.tsx';
import styles from './programme.module.css';
import type { DueLine } from './programme-documents.ts';

/** What lies behind the same opening as something that is ticked: done together, the opening is quoted once. */
export function OpeningsPart({
  lines,
  chosen,
  onTogether,
}: {
  lines: readonly DueLine[];
  chosen: readonly string[];
  onTogether: (itemIds: readonly string[]) => void;
}) {
  const openings = new Map(
    lines.flatMap(({ opening }) => (opening == null ? [] : [[opening.id, opening]])),
  );
  const together = [...openings.values()].flatMap((opening) => {
    const behind = lines.filter((line) => line.opening?.id === opening.id && line.quotable);
    const more = behind.filter(({ itemId }) => !chosen.includes(itemId));
    return behind.length > more.length && more.length > 0 ? [{ opening, more }] : [];
  });
  if (together.length === 0) return null;
  return (
    <ul className={styles.ahead} data-screen-only="" aria-label="Done while it is open">
      {together.map(({ opening, more }) => (
        <li key={opening.id}>
          <span>
            While “{opening.title}” is quoted anyway: {more.map(({ title }) => title).join(', ')}.
            {opening.standardHours == null
              ? ' It is opened and closed once.'
              : ` Its ${opening.standardHours} h are quoted once.`}
          </span>
          <Button kind="plain" onClick={() => onTogether(more.map(({ itemId }) => itemId))}>
            Do {more.length === 1 ? 'this' : 'these'} too
          </Button>
        </li>
      ))}
    </ul>
  );
}
