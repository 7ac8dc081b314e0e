'use client';

import { useQuery } from '@tanstack/react-query';
import { Balloon } from '../../components/Balloon.tsx';
import { Button, ButtonLink } from '../../components/Button.tsx';
import { Caution } from '../../components/Caution.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { Photos, photoOfShop } from '../../components/Photos.tsx';
import { request } from '../../graphql/request.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { clockText } from '../../lib/figures/hours.ts';
import { paperHref } from '../../lib/paper-href.ts';
import { BenchFrame } from './BenchFrame.tsx';
import styles from './bench.module.css';
import { Clocked } from './Clocked.tsx';
import { FinishForm } from './FinishForm.tsx';
import { accessWords } from './form-words.ts';
import { type ItemOnSheet, ItemSheetDocument } from './item-documents.ts';
import { PhotosOnTheWay } from './PhotosOnTheWay.tsx';
import { PutOffItem } from './PutOffItem.tsx';
import { RunningClock } from './RunningClock.tsx';
import { SecondLook } from './SecondLook.tsx';
import { type Bench, useBench } from './use-bench.ts';
import { useChangeItem } from './use-change-item.ts';
import { useStart } from './use-start.tsx';
import { goTo, ViewLink } from './view.tsx';
import { WaitForm } from './WaitForm.tsx';
import { stateMarks, waitingWords } from './work-words.ts';

/** One item: its hazards and data, its clock, and how it ends. */
export function ItemSheet({ id }: { id: string }) {
  const bench = useBench();
  const asked = useQuery({
    queryKey: ['item', id],
    queryFn: async () => {
      const { node } = await request(ItemSheetDocument, { id });
      return node?.__typename === 'WorkItem' ? node : null;
    },
  });
  const item = asked.data ?? null;
  return (
    <BenchFrame
      bench={bench}
      title={item?.title ?? 'Item'}
      what={item?.title ?? 'Item'}
      cells={
        item
          ? [
              { label: 'Aircraft', value: item.order.aircraft.registration },
              { label: 'Order', value: `${item.order.number}, item ${item.position}` },
            ]
          : []
      }
    >
      {({ personId, timeZone }) =>
        item ? (
          <Body bench={bench} item={item} personId={personId} timeZone={timeZone} />
        ) : asked.isPending ? (
          <Loading>Looking up the item</Loading>
        ) : (
          <ErrorNote
            head="No item"
            action={<ViewLink view={{ kind: 'list' }}>To the bench</ViewLink>}
          >
            {asked.error?.message ?? 'There is no such item in this shop.'}
          </ErrorNote>
        )
      }
    </BenchFrame>
  );
}

function Body({
  bench,
  item,
  personId,
  timeZone,
}: {
  bench: Bench;
  item: ItemOnSheet;
  personId: string;
  timeZone: string;
}) {
  const { press, asking } = useStart(bench);
  const toBench = () => goTo({ kind: 'list' });
  const finishing = useChangeItem(toBench);
  const waiting = useChangeItem(toBench);
  const others = useChangeItem(() => undefined);
  const putting = useChangeItem(toBench);
  const correcting = useChangeItem(() => undefined);
  const roles = bench.viewer.data?.person.roles ?? [];
  const mayPutOff = roles.some((role) => role !== 'mechanic');
  const runsHere = bench.running?.itemId === item.id;
  const mark = stateMarks[item.state];
  const workable = item.state === 'open' || item.state === 'in_work' || item.state === 'waiting';
  const stop = () => bench.stop(item);
  return (
    <div className={styles.sections}>
      <section className={styles.facts}>
        <p>
          <ViewLink view={{ kind: 'list' }}>Bench</ViewLink> / {item.order.aircraft.registration},
          order {item.order.number}, item {item.position}
        </p>
        <p>
          <Hatch
            state={mark.state}
            word={mark.word}
            {...(item.waitingFor === null ? {} : { waitsFor: waitingWords[item.waitingFor] })}
          />
        </p>
        {item.critical ? <p>Critical: a second person inspects it.</p> : null}
        {item.reference === '' ? null : <p>Data: {item.reference}</p>}
        {item.plannedAccess && accessWords(item.plannedAccess).length > 0 ? (
          <p>Place: {accessWords(item.plannedAccess).join(', ')}</p>
        ) : null}
        {item.parts.map(({ quantity, lot }) => (
          <p key={lot.id}>
            Part: <span className={styles.figures}>{quantity}</span> {lot.part.unit}{' '}
            {lot.part.title}, batch {lot.batch}
          </p>
        ))}
        <p>
          Clocked: <span className={styles.figures}>{clockText(item.secondsWorked)}</span> h
        </p>
      </section>
      {item.cautions.length === 0 ? null : (
        <Caution hazards={item.cautions}>The maker’s current manual governs.</Caution>
      )}
      {workable ? (
        <section className={styles.form}>
          {runsHere && bench.running ? (
            <>
              <RunningClock key={bench.running.startedAt} since={bench.running.startedAt} />
              <Button size="bench" onClick={() => void stop()}>
                Stop the clock
              </Button>
            </>
          ) : (
            <Button size="bench" onClick={() => press(item)}>
              {bench.running === null ? 'Start the clock' : 'Switch the clock to this'}
            </Button>
          )}
          <ViewLink className={styles.found} view={{ kind: 'found', item: item.id }}>
            Found something
          </ViewLink>
          {item.state === 'waiting' ? (
            <Button
              size="bench"
              busy={others.isPending ? 'Sending' : undefined}
              onClick={() => others.mutate({ kind: 'resume', itemId: item.id })}
            >
              It has come: no longer waiting
            </Button>
          ) : null}
        </section>
      ) : null}
      <PhotosOnTheWay personId={personId} />
      {item.findings.length === 0 ? null : <FoundHere item={item} />}
      {workable ? (
        <section className={styles.form} aria-labelledby="done">
          <h2 id="done">It is done</h2>
          <FinishForm item={item} runsHere={runsHere} onStop={stop} finishing={finishing} />
        </section>
      ) : null}
      {workable ? (
        <details>
          <summary className={styles.summary}>It has to wait</summary>
          <WaitForm itemId={item.id} runsHere={runsHere} onStop={stop} waiting={waiting} />
        </details>
      ) : null}
      {workable ? (
        <details>
          <summary className={styles.summary}>It is not done on this visit</summary>
          {mayPutOff ? (
            <PutOffItem
              itemId={item.id}
              critical={item.critical}
              runsHere={runsHere}
              onStop={stop}
              putting={putting}
            />
          ) : (
            <p>An inspector or the front desk puts it off: tell them why.</p>
          )}
        </details>
      ) : null}
      <SecondLook item={item} personId={personId} changing={others} />
      {item.state === 'done' || item.state === 'put_off' ? (
        <Button
          size="bench"
          busy={others.isPending ? 'Sending' : undefined}
          onClick={() =>
            others.mutate({
              kind: 'reopen',
              itemId: item.id,
              reason:
                item.state === 'done' ? 'Not finished after all.' : 'Done on this visit after all.',
            })
          }
        >
          {item.state === 'done'
            ? 'Not finished after all: open it again'
            : 'Done on this visit after all: take it up again'}
        </Button>
      ) : null}
      {others.error ? <ErrorNote head="Not changed">{others.error.message}</ErrorNote> : null}
      <ButtonLink size="bench" kind="plain" href={paperHref('job-card', item.id)}>
        Job card, PDF
      </ButtonLink>
      <Clocked item={item} personId={personId} timeZone={timeZone} correcting={correcting} />
      {item.events.length === 0 ? null : <History item={item} timeZone={timeZone} />}
      {asking}
    </div>
  );
}

const eventWords: Record<ItemOnSheet['events'][number]['kind'], string> = {
  waiting: 'waits',
  resumed: 'no longer waits',
  done: 'done',
  reopened: 'opened again',
  initialled: 'initialled',
  second_inspected: 'inspected by a second person',
  put_off: 'put off',
};

/** What was found while at it, each with the photos that are through. */
function FoundHere({ item }: { item: ItemOnSheet }) {
  return (
    <section className={styles.form} aria-labelledby="found-here">
      <h2 id="found-here">Found while at it</h2>
      {item.findings.map(({ id, number, title, photos }) => (
        <div key={id} className={styles.form}>
          <h3 className={styles.foundTitle}>
            <Balloon number={number} /> {title}
          </h3>
          <Photos of={title} photos={photos.map(photoOfShop)} />
        </div>
      ))}
    </section>
  );
}

function History({ item, timeZone }: { item: ItemOnSheet; timeZone: string }) {
  return (
    <section>
      <h2>What happened</h2>
      <ul className={styles.events}>
        {item.events.map((event) => (
          <li key={event.id}>
            {dayAndTimeText(event.at, timeZone)}: {eventWords[event.kind]}
            {event.waitingFor === null ? '' : ` for ${waitingWords[event.waitingFor]}`},{' '}
            {event.by.name}
            {event.workDone === '' ? null : <p className={styles.second}>{event.workDone}</p>}
            {event.note === '' ? null : <p className={styles.second}>{event.note}</p>}
          </li>
        ))}
      </ul>
    </section>
  );
}
