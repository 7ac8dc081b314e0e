'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Empty, Loading } from '../../components/Empty.tsx';
import { Figure, Money } from '../../components/Figure.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { useViewer, type Viewer } from '../../lib/use-viewer.ts';
import { lotHref } from './addresses.ts';
import { CoreForm, type CoreInHand } from './core-form.tsx';
import { type CoreByWork, CoresOwedDocument, type CoreToSupplier } from './cores-documents.ts';
import styles from './stores.module.css';
import { StoresSheets } from './stores-sheets.tsx';

const notes = [
  'A core is the old part that is handed over for an exchanged one. Its charge stays owed until it is (common practice, no source).',
  'A life-limited part keeps its status with it at every removal (14 CFR 43.10); tag the old one as what it is.',
];

const sumOf = (cores: readonly { amount: string }[]) =>
  cores.reduce((sum, { amount }) => sum + BigInt(amount), 0n);

/** What old parts are owed: by customers’ work to the shop, and by the shop to its suppliers. */
export function CoresSheet() {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['coresOwed'],
    queryFn: () => request(CoresOwedDocument),
  });
  const problem = viewer.error ?? error;
  const shop = viewer.data?.shop;
  return (
    <Sheet
      here="stores"
      viewer={viewer.data?.person ?? null}
      title="Cores owed"
      notes={notes}
      titleBlock={{
        what: 'Old parts owed, and what is charged for them',
        cells:
          data && shop
            ? [
                {
                  label: 'Owed to the shop',
                  value: `${moneyText(sumOf(data.coresOwedByWork), shop.currency)} ${shop.currency}`,
                  figures: true,
                },
                {
                  label: 'Owed by the shop',
                  value: `${moneyText(sumOf(data.coresOwedToSuppliers), shop.currency)} ${shop.currency}`,
                  figures: true,
                },
                { label: 'Date', value: dayText(new Date(), shop.timeZone), figures: true },
                { label: 'Shop', value: shop.name, span: 'whole' },
              ]
            : [],
      }}
    >
      {data && shop ? (
        <Drawn byWork={data.coresOwedByWork} toSuppliers={data.coresOwedToSuppliers} shop={shop} />
      ) : problem ? (
        <NoAnswer
          head="No cores to show"
          problem={problem}
          onAgain={() => void client.refetchQueries()}
        />
      ) : (
        <Loading>Looking for what is owed</Loading>
      )}
    </Sheet>
  );
}

function Drawn({
  byWork,
  toSuppliers,
  shop,
}: {
  byWork: readonly CoreByWork[];
  toSuppliers: readonly CoreToSupplier[];
  shop: Viewer['shop'];
}) {
  const [hand, setHand] = useState<CoreInHand | null>(null);
  const [said, setSaid] = useState('');
  const open = (core: CoreInHand) => {
    setSaid('');
    setHand(core);
  };
  return (
    <div className={styles.sections}>
      <StoresSheets here="cores" />
      {hand === null ? null : (
        <CoreForm
          key={`${hand.lotId} ${hand.itemId ?? ''}`}
          core={hand}
          onDone={(words) => {
            setSaid(words);
            setHand(null);
          }}
          onLeave={() => setHand(null)}
        />
      )}
      <p role="status" className={said === '' ? 'spoken' : styles.said}>
        {said}
      </p>
      {byWork.length + toSuppliers.length === 0 ? (
        <Empty>
          No core is owed: a part with a core charge makes one when it comes, and when it is issued.
        </Empty>
      ) : null}
      {byWork.length === 0 ? null : <OwedByWork cores={byWork} shop={shop} onOpen={open} />}
      {toSuppliers.length === 0 ? null : (
        <OwedToSuppliers cores={toSuppliers} shop={shop} onOpen={open} />
      )}
    </div>
  );
}

interface Owed<C> {
  cores: readonly C[];
  shop: Viewer['shop'];
  onOpen: (core: CoreInHand) => void;
}

function OwedByWork({ cores, shop, onOpen }: Owed<CoreByWork>) {
  return (
    <PartsList
      caption="Owed to the shop"
      columns={[
        { key: 'part', head: 'Part' },
        { key: 'work', head: 'By which work' },
        { key: 'many', head: 'Old ones', kind: 'figure' },
        { key: 'amount', head: `Charged, ${shop.currency}`, kind: 'figure' },
      ]}
      rows={cores.map(({ lot, item, quantity, amount, since }) => {
        const { registration } = item.order.aircraft;
        return {
          key: `${lot.id}-${item.id}`,
          cells: {
            part: lot.part.title,
            work: (
              <>
                <b className={styles.place}>{registration}</b>, order {item.order.number},{' '}
                <span className={styles.figures}>{item.position}</span> {item.title}
              </>
            ),
            many: (
              <span className={styles.left}>
                <Figure text={quantity} unit={lot.part.unit} />
                <span data-screen-only="">
                  <Button
                    aria-label={`The old ${lot.part.title} came from ${registration}, item ${item.position}`}
                    onClick={() =>
                      onOpen({
                        lotId: lot.id,
                        itemId: item.id,
                        part: `${lot.part.title}, ${lot.part.number}`,
                        whom: registration,
                        unit: lot.part.unit,
                        quantity,
                      })
                    }
                  >
                    It came
                  </Button>
                </span>
              </span>
            ),
            amount: <Money minor={BigInt(amount)} currency={shop.currency} />,
          },
          note: (
            <>
              {lot.part.number}, <SheetLink href={lotHref(lot.id)}>batch {lot.batch}</SheetLink>,
              issued {dayText(since, shop.timeZone)}
            </>
          ),
        };
      })}
    />
  );
}

function OwedToSuppliers({ cores, shop, onOpen }: Owed<CoreToSupplier>) {
  return (
    <PartsList
      caption="Owed to suppliers"
      columns={[
        { key: 'part', head: 'Part' },
        { key: 'supplier', head: 'To whom' },
        { key: 'many', head: 'Old ones', kind: 'figure' },
        { key: 'amount', head: `Charged, ${shop.currency}`, kind: 'figure' },
      ]}
      rows={cores.map(({ lot, quantity, amount, atHand }) => ({
        key: lot.id,
        cells: {
          part: lot.part.title,
          supplier: (
            <>
              {lot.supplier}
              <span className={styles.second}>
                {atHand === '0' ? 'no old one lies here' : `${atHand} lie here to be sent`}
              </span>
            </>
          ),
          many: (
            <span className={styles.left}>
              <Figure text={quantity} unit={lot.part.unit} />
              <span data-screen-only="">
                <Button
                  aria-label={`The old ${lot.part.title} was sent to ${lot.supplier}`}
                  onClick={() =>
                    onOpen({
                      lotId: lot.id,
                      part: `${lot.part.title}, ${lot.part.number}`,
                      whom: lot.supplier,
                      unit: lot.part.unit,
                      quantity,
                    })
                  }
                >
                  It was sent
                </Button>
              </span>
            </span>
          ),
          amount: <Money minor={BigInt(amount)} currency={shop.currency} />,
        },
        note: (
          <>
            {lot.part.number}, <SheetLink href={lotHref(lot.id)}>batch {lot.batch}</SheetLink>, came{' '}
            {calendarDateText(lot.receivedOn)}
          </>
        ),
      }))}
    />
  );
}
