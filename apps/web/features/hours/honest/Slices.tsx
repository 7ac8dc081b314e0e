import { Figure } from '../../../components/Figure.tsx';
import { More } from '../../../components/More.tsx';
import { type PartsColumn, PartsList } from '../../../components/PartsList.tsx';
import { ofText, verdictWords } from '../hours-words.ts';
import type { Slice } from './honest-document.ts';

/** Rows that stand open: those with the most jobs come first. */
const OPEN = 4;

/** "the range holds; the last time would have done better". */
function noteOf({ score }: Slice): string {
  const range = score.coverage
    ? `the range: ${verdictWords[score.coverage.verdict]}`
    : 'nothing to compare';
  const better = score.rivals
    .filter(({ standing }) => standing === 'rival_better')
    .map(({ name }) => name);
  return better.length === 0 ? range : `${range}; ${better.join(' and ')} would have done better`;
}

/** How the jobs of each task, model or mechanic were predicted. */
export function Slices({ what, slices }: { what: string; slices: readonly Slice[] }) {
  const columns: readonly PartsColumn[] = [
    { key: 'name', head: what },
    { key: 'within', head: 'Within', kind: 'figure' },
    { key: 'loss', head: 'P80 cost, CRPS, h', kind: 'figure' },
  ];
  const rows = slices.map((slice) => ({
    key: `${what}-${slice.key}`,
    note: noteOf(slice),
    cells: {
      name: slice.name,
      within: slice.score.coverage ? (
        <Figure text={ofText(slice.score.coverage.within, slice.score.coverage.items)} />
      ) : (
        'none'
      ),
      loss: (
        <Figure
          text={`${slice.score.loss.p80.toFixed(3)} · ${(slice.score.crps ?? 0).toFixed(3)}`}
        />
      ),
    },
  }));
  return (
    <div>
      <PartsList
        caption={`By ${what.toLowerCase()}`}
        columns={columns}
        rows={rows.slice(0, OPEN)}
      />
      {rows.length > OPEN ? (
        <More words={`And ${rows.length - OPEN} with fewer jobs`}>
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
