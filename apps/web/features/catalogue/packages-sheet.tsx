'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Empty, Loading } from '../../components/Empty.tsx';
import { Money } from '../../components/Figure.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import type { PackagesQuery } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import styles from './catalogue.module.css';
import { PackagesDocument } from './catalogue-documents.ts';
import { aircraftKindWords } from './catalogue-words.ts';
import { Starters } from './starters.tsx';

export const notes = [
  'The scope of an annual and of a 100-hour inspection is that of 14 CFR part 43 appendix D, rotorcraft also 43.15(b); a checklist is mandatory (43.15(c)(1)). How each line is done is in the maker’s current manual.',
  'A quote, an order and a record keep the list that they were made with; a new revision counts for what comes after it.',
];

/** What the shop sells as one, how sound each list is, and what there is to start from: the manager's sheet. */
export function PackagesSheet() {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['packages'],
    queryFn: () => request(PackagesDocument),
  });
  const shop = viewer.data?.shop;
  const problem = viewer.error ?? error;
  return (
    <Sheet
      here="shop"
      viewer={viewer.data?.person ?? null}
      title="Packages"
      notes={notes}
      titleBlock={{
        what: 'Work that is sold together',
        cells:
          data === undefined || shop === undefined
            ? []
            : [
                { label: 'Packages', value: `${data.packages.length}`, figures: true },
                { label: 'Date', value: dayText(new Date(), shop.timeZone), figures: true },
                { label: 'Shop', value: shop.name, span: 'whole' },
              ],
      }}
    >
      {data && shop ? (
        <div className={styles.sections}>
          {data.packages.length === 0 ? (
            <Empty draws="sheet">
              Nothing is sold together yet. Start from the rule’s own scope below, or put a package
              together from tasks.
            </Empty>
          ) : (
            <PartsList
              caption="What is sold together"
              columns={[
                { key: 'title', head: 'Package' },
                { key: 'for', head: 'For' },
                { key: 'tasks', head: 'Tasks', kind: 'figure' },
                { key: 'revision', head: 'Rev.', kind: 'figure' },
                { key: 'price', head: `Price, ${shop.currency}`, kind: 'figure' },
              ]}
              rows={data.packages.map((pack) => rowOf(pack, shop.currency))}
            />
          )}
          <p>
            <SheetLink href="/shop/packages/new">Put a package together</SheetLink>
          </p>
          <Starters starters={data.starterPackages} models={data.models} />
          <p>
            <SheetLink href="/shop">The shop’s sheet</SheetLink>
          </p>
        </div>
      ) : problem ? (
        <NoAnswer
          head="No packages to show"
          problem={problem}
          onAgain={() => void client.refetchQueries()}
        />
      ) : (
        <Loading>Fetching what is sold together</Loading>
      )}
    </Sheet>
  );
}

function rowOf(pack: PackagesQuery['packages'][number], currency: string) {
  const { id, title, model, modelKind, tasks, revision, price, offered, warning, missing } = pack;
  const said = [
    ...(offered ? [] : ['No longer offered.']),
    ...(missing.length === 0
      ? []
      : [
          `${missing.length} ${missing.length === 1 ? 'line' : 'lines'} of the rule ${missing.length === 1 ? 'is' : 'are'} in no task of it.`,
        ]),
    ...(warning === null ? [] : [warning]),
  ];
  return {
    key: id,
    ...(said.length > 0 && { note: <span className={styles.flag}>{said.join(' ')}</span> }),
    cells: {
      title: <a href={`/shop/packages/${encodeURIComponent(id)}`}>{title}</a>,
      for: model
        ? `${model.maker} ${model.name}`
        : modelKind === null
          ? 'any aircraft'
          : (aircraftKindWords[modelKind as keyof typeof aircraftKindWords] ?? modelKind),
      tasks: `${tasks.length}`,
      revision: `${revision}`,
      price: price === null ? 'by time' : <Money minor={BigInt(price)} currency={currency} />,
    },
  };
}
