'use client';

import { useQuery } from '@tanstack/react-query';
import { AfterPaint } from '../../components/AfterPaint.tsx';
import { Button, ButtonLink } from '../../components/Button.tsx';
import { Caution } from '../../components/Caution.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { Photos, photoOfShop } from '../../components/Photos.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import { clockText } from '../../lib/figures/hours.ts';
import { paperHref } from '../../lib/paper-href.ts';
import { Checklist } from '../safety/checklist.tsx';
import { LeftHere, takenOverWords } from '../safety/hand-overs.tsx';
import { ItemCare } from '../safety/item-care.tsx';
import { useUnsentFacts } from '../safety/kept-facts.ts';
import { lotHref } from '../stores/addresses.ts';
import { PartAgainst } from '../stores/part-against.tsx';
import { BenchFrame } from './BenchFrame.tsx';
import styles from './bench.module.css';
import { Clocked } from './Clocked.tsx';
import { accessWords } from './form-words.ts';
import { ItemEnds } from './ItemEnds.tsx';
import { FoundHere, History } from './ItemPast.tsx';
import { itemAsked } from './item-asked.ts';
import type { ItemOnSheet } from './item-documents.ts';
import { type ItemNow, itemNow } from './items-now.ts';
import { Learned } from './Learned.tsx';
import { LearnForm } from './LearnForm.tsx';
import { marksNow } from './marks-now.ts';
import { outbox } from './outbox.ts';
import { PhotosOnTheWay } from './PhotosOnTheWay.tsx';
import type { ItemChange } from './pending.ts';
import { RunningClock } from './RunningClock.tsx';
import { SecondLook } from './SecondLook.tsx';
import { secondLookOf } from './second-look.ts';
import { type Bench, useBench } from './use-bench.ts';
import { useStart } from './use-start.tsx';
import { goTo, ViewLink } from './view.tsx';
import { stateMarks, waitingWords } from './work-words.ts';

/** One item: its hazards and data, its clock, and how it ends. */
export function ItemSheet({ id }: { id: string }) {
  const bench = useBench();
  const asked = useQuery(itemAsked(id));
  const item = asked.data ? itemNow(asked.data, bench.mine) : null;
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
        item && asked.data ? (
          <Body
            bench={bench}
            item={item}
            asSaid={asked.data}
            personId={personId}
            timeZone={timeZone}
          />
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
  asSaid,
  personId,
  timeZone,
}: {
  bench: Bench;
  item: ItemNow<ItemOnSheet>;
  /** As the shop said it last. */
  asSaid: ItemOnSheet;
  personId: string;
  timeZone: string;
}) {
  const { press, asking } = useStart(bench);
  // What was said here before and not taken makes way for what is said now.
  const refused = bench.mine.find(
    (entry) =>
      entry.kind === 'change' &&
      entry.refused &&
      entry.does !== 'secondLook' &&
      entry.input.itemId === item.id,
  );
  const look = secondLookOf(asSaid, personId, bench.mine);
  const change = (said: ItemChange) => {
    if (refused) outbox.discard(refused);
    void bench.change(item, said);
  };
  const facts = useUnsentFacts();
  const roles = bench.viewer.data?.person.roles ?? [];
  const runsHere = bench.running?.itemId === item.id;
  const mark = stateMarks[item.state];
  const workable = item.state === 'open' || item.state === 'in_work' || item.state === 'waiting';
  return (
    <div className={styles.thing}>
      <div className={styles.sections}>
        {item.stoppedHere.map((left) => (
          <LeftHere key={left.id} left={{ ...left, item: null }} here timeZone={timeZone}>
            {'unsent' in left ? (
              <p>Not sent yet.</p>
            ) : (
              <Button size="bench" onClick={() => void bench.takeOver(item, left.id)}>
                {takenOverWords}
              </Button>
            )}
          </LeftHere>
        ))}
        <section className={styles.facts}>
          <p>
            <ViewLink view={{ kind: 'list' }}>Bench</ViewLink> / {item.order.aircraft.registration},
            order {item.order.number}, item {item.position}
          </p>
          <p>
            <Hatch
              state={mark.state}
              word={item.unsent ? `${mark.word}, not sent yet` : mark.word}
              {...(item.waitingFor === null ? {} : { waitsFor: waitingWords[item.waitingFor] })}
            />
          </p>
          {item.critical ? <p>Critical: a second person inspects it.</p> : null}
          {item.reference === '' ? null : <p>Data: {item.reference}</p>}
          {item.plannedAccess && accessWords(item.plannedAccess).length > 0 ? (
            <p>Place: {accessWords(item.plannedAccess).join(', ')}</p>
          ) : null}
          {item.parts.map(({ quantity, lot, answeredFor }) => (
            <p key={lot.id}>
              Part: <span className={styles.figures}>{quantity}</span> {lot.part.unit}{' '}
              {lot.part.title}, batch <SheetLink href={lotHref(lot.id)}>{lot.batch}</SheetLink>
              <PartAgainst words={answeredFor} />
            </p>
          ))}
          {item.finding === null ? null : (
            <>
              <p>
                Corrects finding {item.finding.number}:{' '}
                <ViewLink view={{ kind: 'finding', id: item.finding.id }}>
                  {item.finding.title}
                </ViewLink>
              </p>
              <Photos
                of={item.finding.title}
                photos={marksNow(item.finding.photos, facts).map(photoOfShop)}
                pairs={item.finding.photoPairs}
              />
            </>
          )}
          <p>
            Clocked: <span className={styles.figures}>{clockText(item.secondsWorked)}</span> h
          </p>
        </section>
        {item.cautions.length === 0 ? null : (
          <Caution hazards={item.cautions}>The maker’s current manual governs.</Caution>
        )}
        <Learned item={item} timeZone={timeZone} />
        {workable ? (
          <section className={styles.form}>
            {runsHere && bench.running ? (
              <>
                <RunningClock key={bench.running.startedAt} since={bench.running.startedAt} />
                <Button size="bench" onClick={() => void bench.stop(item)}>
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
                onClick={() => change({ does: 'resume', input: { itemId: item.id } })}
              >
                It has come: no longer waiting
              </Button>
            ) : null}
          </section>
        ) : null}
        <AfterPaint>
          <PhotosOnTheWay personId={personId} />
          {item.findings.length === 0 ? null : <FoundHere item={item} />}
          <Checklist
            checklist={item.checklist}
            initials={bench.viewer.data?.person.initials ?? ''}
            open={workable}
            timeZone={timeZone}
            onLine={(line, kind) => void bench.initial(item, line, kind)}
          />
        </AfterPaint>
      </div>
      <div className={styles.sections}>
        <AfterPaint>
          <ItemCare
            itemId={item.id}
            orderId={item.order.id}
            timeZone={timeZone}
            open={workable || item.state === 'done'}
            inspects={roles.some((role) => role === 'inspector' || role === 'manager')}
          />
          {workable ? (
            <ItemEnds
              bench={bench}
              item={item}
              personId={personId}
              refused={refused}
              onChange={(said) => {
                change(said);
                goTo({ kind: 'list' });
              }}
            />
          ) : null}
          {item.task === null ? null : <LearnForm item={item} />}
          <SecondLook
            look={item.unsent && look?.stands !== 'noted' ? null : look}
            timeZone={timeZone}
            onLook={(firstId) =>
              change({ does: 'secondLook', input: { itemId: item.id, firstId } })
            }
          />
          {item.state === 'done' || item.state === 'put_off' ? (
            <Button
              size="bench"
              onClick={() =>
                change({
                  does: 'reopen',
                  input: {
                    itemId: item.id,
                    reason:
                      item.state === 'done'
                        ? 'Not finished after all.'
                        : 'Done on this visit after all.',
                  },
                })
              }
            >
              {item.state === 'done'
                ? 'Not finished after all: open it again'
                : 'Done on this visit after all: take it up again'}
            </Button>
          ) : null}
          <ButtonLink size="bench" kind="plain" href={paperHref('job-card', item.id)}>
            Job card, PDF
          </ButtonLink>
          <Clocked
            item={item}
            personId={personId}
            correctsAll={roles.includes('manager')}
            timeZone={timeZone}
            supervisors={bench.supervisors}
            onCorrect={(ends) => void bench.correct(item, ends)}
          />
          {item.events.length === 0 ? null : <History item={item} timeZone={timeZone} />}
        </AfterPaint>
      </div>
      {asking}
    </div>
  );
}
