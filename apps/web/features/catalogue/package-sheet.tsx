'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import { request } from '../../graphql/request.ts';
import { dayAndTimeText, dayText } from '../../lib/figures/dates.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import styles from './catalogue.module.css';
import {
  ModelsDocument,
  type PackageOnSheet,
  PackageSheetDocument,
} from './catalogue-documents.ts';
import { PackageForm } from './package-form.tsx';
import { notes } from './packages-sheet.tsx';

const back = <SheetLink href="/shop/packages">All packages</SheetLink>;

/** One package: what is in it, from what data, and its revisions. */
export function PackageSheet({ id }: { id: string }) {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['package', id],
    queryFn: () => request(PackageSheetDocument, { id }),
  });
  const problem = viewer.error ?? error;
  const shop = viewer.data?.shop;
  const pack = data?.node?.__typename === 'Package' ? data.node : undefined;
  return (
    <Sheet
      here="shop"
      viewer={viewer.data?.person ?? null}
      title={pack?.title ?? 'A package'}
      notes={notes}
      titleBlock={{
        what: pack?.title ?? 'A package',
        cells:
          pack === undefined || shop === undefined
            ? []
            : [
                { label: 'Revision', value: `${pack.revision}`, figures: true },
                { label: 'Tasks', value: `${pack.tasks.length}`, figures: true },
                { label: 'Date', value: dayText(new Date(), shop.timeZone), figures: true },
                { label: 'Shop', value: shop.name, span: 'whole' },
              ],
      }}
    >
      {pack && data && shop ? (
        <div className={styles.sections}>
          {pack.warning === null ? null : <p className={styles.flag}>{pack.warning}</p>}
          <PackageForm
            key={pack.revision}
            pack={pack}
            models={data.models}
            currency={shop.currency}
          />
          <Revisions revisions={pack.revisions} timeZone={shop.timeZone} />
          <p>{back}</p>
        </div>
      ) : problem ? (
        <NoAnswer
          head="No package to show"
          problem={problem}
          onAgain={() => void client.refetchQueries()}
          action={back}
        />
      ) : data === undefined ? (
        <Loading>Fetching the package</Loading>
      ) : (
        <ErrorNote head="No package to show" action={back}>
          There is no such package in this shop.
        </ErrorNote>
      )}
    </Sheet>
  );
}

/** A package that is not there yet. */
export function NewPackageSheet() {
  const viewer = useViewer();
  const { data, error } = useQuery({
    queryKey: ['models'],
    queryFn: () => request(ModelsDocument),
  });
  const problem = viewer.error ?? error;
  return (
    <Sheet
      here="shop"
      viewer={viewer.data?.person ?? null}
      title="New package"
      notes={notes}
      titleBlock={{ what: 'A package that is put together', cells: [] }}
    >
      {data && viewer.data ? (
        <div className={styles.sections}>
          <PackageForm pack={null} models={data.models} currency={viewer.data.shop.currency} />
          <p>{back}</p>
        </div>
      ) : problem ? (
        <ErrorNote head="Cannot start a package">{problem.message}</ErrorNote>
      ) : (
        <Loading>Fetching the shop’s models</Loading>
      )}
    </Sheet>
  );
}

function Revisions({
  revisions,
  timeZone,
}: {
  revisions: PackageOnSheet['revisions'];
  timeZone: string;
}) {
  if (revisions.length === 0) return null;
  return (
    <PartsList
      caption="Revisions"
      columns={[
        { key: 'revision', head: 'Rev.' },
        { key: 'made', head: 'Made' },
        { key: 'tasks', head: 'Tasks', kind: 'figure' },
        { key: 'changed', head: 'Against the one before' },
      ]}
      rows={revisions.map(({ revision, at, by, titles }, index) => ({
        key: `revision-${revision}`,
        cells: {
          revision: `${revision}`,
          made: `${dayAndTimeText(at, timeZone)}, ${by.name}`,
          tasks: `${titles.length}`,
          changed: changedWords(titles, revisions[index + 1]?.titles),
        },
      }))}
    />
  );
}

function changedWords(titles: readonly string[], before: readonly string[] | undefined): string {
  if (before === undefined) return 'the first that is kept';
  const came = titles.filter((title) => !before.includes(title));
  const went = before.filter((title) => !titles.includes(title));
  const words = [
    ...(came.length > 0 ? [`added: ${came.join('; ')}`] : []),
    ...(went.length > 0 ? [`taken out: ${went.join('; ')}`] : []),
  ];
  if (words.length > 0) return words.join('. ');
  return titles.join() === before.join() ? 'the same tasks' : 'another order';
}
