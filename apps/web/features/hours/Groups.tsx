import { Figure } from '../../components/Figure.tsx';
import { More } from '../../components/More.tsx';
import { type PartsColumn, PartsList } from '../../components/PartsList.tsx';
import { type HoursFilter, hoursAddress, narrowTo } from './filter.ts';
import type { Group } from './hours-document.ts';
import { factorText, ofText, verdictWords } from './hours-words.ts';

/** Rows that stand open: those with the most items come first. */
const OPEN = 5;

/** How the ranges held for each task, or on each model. A name narrows the sheet to it. */
export function Groups({
  what,
  by,
  groups,
  filter,
}: {
  /** "task" or "model", for the caption. */
  what: string;
  by: 'task' | 'model';
  groups: readonly Group[];
  filter: HoursFilter;
}) {
  const columns: readonly PartsColumn[] = [
    { key: 'name', head: what },
    { key: 'within', head: 'Within', kind: 'figure' },
    { key: 'ratio', head: 'Clocked / P50', kind: 'figure' },
    { key: 'verdict', head: 'The range' },
  ];
  const rows = groups.map(({ key, name, coverage, ratio }) => {
    const narrowed = { ...filter, [by]: key };
    return {
      key: `${by}-${key}`,
      cells: {
        name: (
          <a
            href={hoursAddress(narrowed)}
            onClick={(event) => {
              if (event.metaKey || event.ctrlKey || event.shiftKey) return;
              event.preventDefault();
              narrowTo(narrowed);
            }}
          >
            {name}
          </a>
        ),
        within: <Figure text={ofText(coverage.within, coverage.items)} />,
        ratio: <Figure text={factorText(ratio.median)} />,
        verdict: verdictWords[coverage.verdict],
      },
    };
  });
  return (
    <div>
      <PartsList
        caption={`By ${what.toLowerCase()}`}
        columns={columns}
        rows={rows.slice(0, OPEN)}
      />
      {rows.length > OPEN ? (
        <More words={`And ${rows.length - OPEN} with fewer items`}>
          <PartsList
            caption={`By ${what.toLowerCase()}, the others`}
            captionHidden
            columns={columns}
            rows={rows.slice(OPEN)}
          />
        </More>
      ) : null}
    </div>
  );
}
