'use client';

import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { More } from '../../components/More.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import type { InitialItemInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { clockText } from '../../lib/figures/hours.ts';
import { itemMarks } from '../quoting/order-words.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { lotHref } from '../stores/addresses.ts';
import { PartAgainst } from '../stores/part-against.tsx';
import styles from './records.module.css';
import type { ItemToSign, OrderToSign } from './records-documents.ts';
import { InitialItemDocument } from './records-mutations.ts';
import { type Alike, figuresOf, saidAlike } from './said-alike.ts';

/** Every item with what was done on it, initialled one by one: there is no way to initial them all. */
export function ItemsPart({
  order,
  inspector,
  personId,
  timeZone,
}: {
  order: OrderToSign;
  inspector: boolean;
  personId: string;
  timeZone: string;
}) {
  const open = order.state === 'here' || order.state === 'ready_to_sign';
  const { items } = order;
  const done = items.filter(({ state }) => state === 'done');
  const alike = saidAlike(done.flatMap((item) => since(item).done?.workDone ?? []));
  const over = items.filter(({ state }) => state === 'inspected' || state === 'put_off');
  const groups = [
    {
      words: 'Not finished',
      items: items.filter(({ state }) => ['open', 'in_work', 'waiting'].includes(state)),
    },
    { words: 'For your initials', items: done, alike },
  ].filter((group) => group.items.length > 0);
  const shared = { mayInitial: inspector && open, personId, timeZone };
  return (
    <section className={styles.part} aria-labelledby="items">
      <h2 id="items">Items</h2>
      <p className={styles.quiet}>
        {done.length === 0
          ? 'Nothing waits for your initials.'
          : `${done.length} ${done.length === 1 ? 'item waits' : 'items wait'} for initials. Look at each; each is initialled on its own.`}
      </p>
      {groups.map(({ words, items, alike = null }) => (
        <div key={words}>
          <h3 className={styles.group}>
            {words} <span>{items.length}</span>
          </h3>
          {alike === null ? null : (
            <p className={styles.alike}>
              {alike.items} of them say alike: “{alike.words}” What another says stands at it.
            </p>
          )}
          <ItemList words={words} items={items} alike={alike} {...shared} />
        </div>
      ))}
      {over.length === 0 ? null : (
        <More words={`${over.length} inspected or put off`}>
          <ItemList words="Inspected or put off" items={over} alike={null} {...shared} />
        </More>
      )}
    </section>
  );
}

interface Shared {
  /** What most of the list say of what was done, read once above it. */
  alike: Alike | null;
  mayInitial: boolean;
  personId: string;
  timeZone: string;
}

function ItemList({
  words,
  items,
  ...shared
}: Shared & { words: string; items: readonly ItemToSign[] }) {
  return (
    <ol className={styles.items} aria-label={words}>
      {items.map((item) => (
        <li key={item.id} className={styles.item} id={`item-${item.position}`}>
          <Item item={item} {...shared} />
        </li>
      ))}
    </ol>
  );
}

/** What was done: whole, or in a word where it is what most say; who did it how long, by which data, unfolds. */
function WhatWasDone({ words, alike }: { words: string; alike: Alike | null }) {
  const figures = figuresOf(words, alike);
  if (figures === null) return <span className={styles.done}>{words}</span>;
  return (
    <span className={styles.asAbove}>
      as above{figures.length > 0 ? `: ${figures.join(', ')}` : ''}
    </span>
  );
}

/** What happened to an item since it was last done. */
function since({ events }: ItemToSign) {
  const from = events.findLastIndex(({ kind }) => kind === 'done');
  const last = events.slice(Math.max(0, from));
  return {
    done: from < 0 ? undefined : events[from],
    first: last.find(({ kind }) => kind === 'initialled'),
    second: last.find(({ kind }) => kind === 'second_inspected'),
  };
}

function Item({ item, alike, mayInitial, personId, timeZone }: Shared & { item: ItemToSign }) {
  const { position, title, state, critical, finding } = item;
  const { done, first, second } = since(item);
  const people = [...new Set(item.stretches.map(({ person }) => person.name))];
  const worked = people.length > 0 ? people.join(', ') : (done?.by.name ?? '');
  const initial = useDoing(
    async (input: InitialItemInput) => (await request(InitialItemDocument, { input })).initialItem,
  );
  const wanted =
    state !== 'done' ? null : first === undefined ? 'first' : critical ? 'second' : null;
  const byHand =
    item.stretches.some(({ person }) => person.id === personId) || done?.by.id === personId;
  const notYou = wanted === 'second' && (byHand || first?.by.id === personId);
  return (
    <>
      <span className={styles.number}>{position}</span>
      <div className={styles.words}>
        <details className={styles.fold}>
          <summary>
            <h4 className={styles.itemTitle}>
              {title}
              {critical ? <span className={styles.caution}> critical</span> : null}
            </h4>
            {done === undefined || state === 'open' ? null : (
              <WhatWasDone words={done.workDone} alike={alike} />
            )}
          </summary>
          <p className={styles.quiet}>
            {[
              ...(figuresOf(done?.workDone ?? '', alike) === null ? [] : [done?.workDone]),
              ...(worked === '' ? [] : [`${worked}, ${clockText(item.secondsWorked)}\u00a0h`]),
              item.jasc,
              // Who did the work has mostly named the data already.
              ...(item.reference === '' || (done?.workDone ?? '').includes(item.reference)
                ? []
                : [item.reference]),
              ...(finding == null ? [] : [`corrects finding ${finding.number}`]),
            ].join(' · ')}
          </p>
          {item.parts.map(({ quantity, lot, answeredFor }) => (
            <p key={lot.id} className={styles.quiet}>
              {quantity} {lot.part.unit} {lot.part.title}, batch{' '}
              <SheetLink href={lotHref(lot.id)}>{lot.batch}</SheetLink>
              <PartAgainst words={answeredFor} />
            </p>
          ))}
        </details>
        {first === undefined ? null : (
          <p className={styles.quiet}>
            Initialled by {first.by.name}, {dayAndTimeText(first.at, timeZone)}
          </p>
        )}
        {second === undefined ? null : (
          <p className={styles.quiet}>
            Second look by {second.by.name}, {dayAndTimeText(second.at, timeZone)}
          </p>
        )}
        {notYou ? (
          <p className={styles.caution}>
            Critical: it wants a second pair of eyes, and not yours: you{' '}
            {byHand ? 'worked on it' : 'gave the first initials'}.
          </p>
        ) : null}
        {initial.error === null ? null : (
          <ErrorNote head="Not initialled">{initial.error.message}</ErrorNote>
        )}
      </div>
      {state === 'done' ? null : (
        <div className={styles.itemState}>
          <Hatch {...itemMarks[state]} />
          {mayInitial && ['open', 'in_work', 'waiting'].includes(state) ? (
            <a data-screen-only="" href={`/bench?item=${encodeURIComponent(item.id)}`}>
              Finish it or put it off<span className="spoken">: {title}</span>
            </a>
          ) : null}
        </div>
      )}
      {mayInitial && wanted !== null && !notYou ? (
        <div className={styles.itemState} data-screen-only="">
          <Button
            busy={initial.isPending ? 'Recording' : undefined}
            aria-label={`${wanted === 'second' ? 'Second look' : 'Initial'}: ${position} ${title}`}
            onClick={() => initial.mutate({ itemId: item.id, second: wanted === 'second' })}
          >
            {wanted === 'second' ? 'Second look done' : 'Initial'}
          </Button>
        </div>
      ) : null}
    </>
  );
}
