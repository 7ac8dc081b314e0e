'use client';

import { useQuery } from '@tanstack/react-query';
import { Button } from '../../../components/Button.tsx';
import { Loading } from '../../../components/Empty.tsx';
import { ErrorNote } from '../../../components/ErrorNote.tsx';
import { Day } from '../../../components/Figure.tsx';
import { More } from '../../../components/More.tsx';
import { Sheet } from '../../../components/Sheet.tsx';
import { HoursSheets } from '../../../features/hours/HoursSheets.tsx';
import styles from '../../../features/hours/hours-sheets.module.css';
import { FactorDrawing } from '../../../features/hours/places/FactorDrawing.tsx';
import drawn from '../../../features/hours/places/places.module.css';
import { type Places, PlacesDocument } from '../../../features/hours/places/places-document.ts';
import { Revisions } from '../../../features/hours/places/Revisions.tsx';
import { TableForm } from '../../../features/hours/places/TableForm.tsx';
import { request } from '../../../graphql/request.ts';
import { groupThousands } from '../../../lib/figures/hours.ts';
import { useViewer } from '../../../lib/use-viewer.ts';

const notes = [
  'A factor multiplies hands-on hours against the best level of its condition, all else alike.',
  'A job counts for a level where its place was written down, and where its standard time was not stated for that very place.',
  'What was quoted before keeps the model that made it.',
];
const LOOK_EVERY_MS = 1500;

/** A saved table is being learned from, and the factors are still of the one before. */
const learns = ({ model, table }: Places) => table.revision !== (model?.tableRevision ?? 0);

/** What the place costs: access factors as believed before and as the shop's own jobs have moved them. */
export default function PlacesPage() {
  const viewer = useViewer();
  const places = useQuery({
    queryKey: ['hours', 'places'],
    queryFn: () => request(PlacesDocument),
    enabled: viewer.data !== undefined,
    refetchInterval: ({ state }) =>
      state.data && learns(state.data.hoursPlaces) ? LOOK_EVERY_MS : false,
  });
  const problem = viewer.error ?? places.error;
  const shop = viewer.data?.shop;
  const found = places.data?.hoursPlaces;
  const model = found?.model ?? null;
  return (
    <Sheet
      here="hours"
      viewer={viewer.data ? viewer.data.person : null}
      title="What the place costs"
      notes={notes}
      titleBlock={{
        what: 'Access factors, before and after this shop’s own jobs',
        cells: [
          { label: 'Shop', value: shop?.name ?? '' },
          {
            label: 'Model',
            value: found ? (model ? `No. ${model.number}` : 'none yet') : '',
            figures: true,
          },
          { label: 'Table', value: found ? `rev. ${found.table.revision}` : '', figures: true },
          {
            label: 'Fitted',
            value:
              model && shop ? (
                <Day at={String(model.fittedAt)} timeZone={shop.timeZone} time />
              ) : (
                ''
              ),
            span: 'half',
          },
          {
            label: 'Past jobs in it',
            value: model ? groupThousands(String(model.items)) : '',
            figures: true,
            span: 'half',
          },
        ],
      }}
    >
      {problem ? (
        <ErrorNote
          head="No factors to show"
          action={<Button onClick={() => void places.refetch()}>Ask again</Button>}
        >
          {problem.message}
        </ErrorNote>
      ) : found && shop && viewer.data ? (
        <div className={styles.sheet}>
          <HoursSheets here="places" roles={viewer.data.person.roles} />
          <section className={styles.part} aria-labelledby="factors">
            <h2 id="factors" className="spoken">
              Factors
            </h2>
            <p className={styles.plain} aria-live="polite">
              {learns(found)
                ? `Revision ${found.table.revision} is saved, and the model is being fitted with it. Until then the factors are of revision ${model?.tableRevision ?? 0}.`
                : modelWords(model)}
            </p>
            <FactorDrawing factors={found.factors} />
          </section>
          <section className={styles.part} aria-labelledby="believed">
            <h2 id="believed">Where what is believed comes from</h2>
            {found.sources.map((source) => (
              <p key={source} className={styles.plain}>
                {source}
              </p>
            ))}
            <p className={styles.plain}>
              The manager’s table replaces it, and history overrules both.
            </p>
            {viewer.data.person.roles.includes('manager') ? (
              <div className={drawn.change}>
                <More words="Change what is believed">
                  <TableForm table={found.table} />
                </More>
              </div>
            ) : null}
            <Revisions revisions={found.revisions} timeZone={shop.timeZone} />
          </section>
        </div>
      ) : (
        <Loading>Fetching what places cost</Loading>
      )}
    </Sheet>
  );
}

function modelWords(model: Places['model']): string {
  if (model === null)
    return 'Nothing was fitted yet, so these are what is believed before any job; the shop’s own jobs move them.';
  const jobs = `${groupThousands(String(model.items))} past jobs`;
  return `From model ${model.number}, fitted to ${jobs}${model.settled ? '' : '; its weights had not stood still when it ended'}.`;
}
