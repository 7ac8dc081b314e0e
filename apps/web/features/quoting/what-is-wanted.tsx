'use client';

import { Choices } from '../../components/Choice.tsx';
import { Select } from '../../components/Field.tsx';
import type { DeskCatalogueQuery } from '../../graphql/generated/graphql.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { DueAhead } from '../programme/due-ahead.tsx';
import { AddCharge } from './add-charge.tsx';
import { AddPart, AddTask } from './add-lines.tsx';
import type { DeskAircraft, DeskPackage } from './catalogue-document.ts';
import { ChosenLines } from './chosen-lines.tsx';
import { contactOptions } from './contact-options.ts';
import { Picker } from './picker.tsx';
import styles from './quote-form.module.css';
import { firstContact, type QuoteStart } from './start-quote.ts';
import { NO_PACKAGE, type useWanted } from './use-wanted.ts';

/** The questions of the desk in the order in which the owner answers them on the telephone. */
export function WhatIsWanted({
  form,
  catalogue,
  aircraft,
  packages,
  start,
}: {
  form: ReturnType<typeof useWanted>;
  catalogue: DeskCatalogueQuery;
  aircraft: DeskAircraft | undefined;
  packages: readonly DeskPackage[];
  start: QuoteStart;
}) {
  const { wanted, change, addTask, addPart, addCharge, sell, setQuantity, remove } = form;
  const currency = useViewer().data?.shop.currency ?? 'USD';
  const packed = packages.find(({ id }) => id === wanted.packageId)?.tasks ?? [];
  const taken = new Set([
    ...packed.map(({ task }) => task.id),
    ...wanted.tasks.map(({ id }) => id),
    ...wanted.parts.map(({ id }) => id),
  ]);

  function pickAircraft(aircraftId: string) {
    const node = catalogue.aircraft.edges.find((edge) => edge.node.id === aircraftId)?.node;
    change({ aircraftId, packageId: '', contactId: firstContact(node?.contacts ?? []) });
  }

  const whole = start.revises === null && start.finding === null;
  return (
    <section className={styles.wanted} aria-label="What is wanted">
      <div className={styles.who}>
        {whole ? (
          <Picker
            label="Aircraft"
            hint="Type the registration"
            autoFocus={wanted.aircraftId === ''}
            keeps={wanted.aircraftId}
            items={catalogue.aircraft.edges.map(({ node }) => ({
              id: node.id,
              text: node.registration,
              note: `${node.model.maker} ${node.model.name} · ${node.contacts[0]?.contact.name ?? 'nobody named'}`,
            }))}
            onPick={pickAircraft}
            nothing="The shop knows no aircraft of that registration."
          />
        ) : (
          <p className={styles.given}>{givenWords(aircraft, start)}</p>
        )}
        {start.revises === null ? (
          <Select
            label="To whom"
            value={wanted.contactId}
            disabled={aircraft === undefined}
            onChange={(event) => change({ contactId: event.currentTarget.value })}
            options={
              aircraft === undefined
                ? [{ value: '', words: 'name the aircraft first' }]
                : contactOptions(aircraft.contacts, currency)
            }
          />
        ) : null}
      </div>
      {whole && aircraft !== undefined ? <DueAhead aircraftId={aircraft.id} /> : null}
      {whole && packages.length > 0 ? (
        <Choices
          legend="Package"
          name="package"
          value={wanted.packageId}
          onChoose={(packageId) => {
            const now = packages.find(({ id }) => id === packageId);
            const inside = new Set(now?.tasks.map(({ task }) => task.id));
            change({ packageId, tasks: wanted.tasks.filter(({ id }) => !inside.has(id)) });
          }}
          options={[
            ...packages.map(({ id, title, price, tasks, warning }) => ({
              value: id,
              words: title,
              note: `${tasks.length} tasks · ${price === null ? 'by time and materials' : `${moneyText(BigInt(price), currency)} ${currency} flat, parts on top`}${warning === null ? '' : ` · ${warning}`}`,
            })),
            { value: NO_PACKAGE, words: 'No package', note: 'only what is added below' },
          ]}
        />
      ) : null}
      {aircraft === undefined ? null : (
        <>
          <div className={styles.who}>
            <AddTask taken={taken} onAdd={addTask} />
            <AddPart taken={taken} onAdd={addPart} />
          </div>
          <AddCharge
            currency={currency}
            supplied={wanted.charges.some(({ kind }) => kind === 'supplies')}
            onAdd={addCharge}
          />
          <ChosenLines
            tasks={wanted.tasks}
            parts={wanted.parts}
            charges={wanted.charges}
            currency={currency}
            onSell={sell}
            onQuantity={setQuantity}
            onRemove={(id) => remove([id])}
          />
        </>
      )}
    </section>
  );
}

function givenWords(aircraft: DeskAircraft | undefined, { finding, revises }: QuoteStart): string {
  const registration = aircraft?.registration ?? '';
  if (finding !== null)
    return `${registration}, order ${finding.orderNumber}. Finding ${finding.number}: ${finding.title}`;
  return `${registration}. ${revises?.title ?? ''}`;
}
