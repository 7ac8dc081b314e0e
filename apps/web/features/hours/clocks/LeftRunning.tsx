'use client';

import { useState } from 'react';
import { ErrorNote } from '../../../components/ErrorNote.tsx';
import { More } from '../../../components/More.tsx';
import { request } from '../../../graphql/request.ts';
import { clientId } from '../../../lib/client-id.ts';
import { useShopNow } from '../../../lib/use-shop-now.ts';
import type { Forgotten } from '../../work/bench-documents.ts';
import { AnswerForm } from '../../work/ForgottenClock.tsx';
import { ForgottenLine } from '../../work/ForgottenLine.tsx';
import { whyWords } from '../../work/forgotten-words.ts';
import { AnswerForgottenClockDocument } from '../../work/item-documents.ts';
import odd from '../odd/odd.module.css';
import { useChange } from '../use-change.ts';

/** Somebody's clock that looks left running; the manager may say how it was for them. */
export function LeftRunning({
  clock,
  timeZone,
  answers,
}: {
  clock: Forgotten;
  timeZone: string;
  answers: boolean;
}) {
  const now = useShopNow();
  // One id for one clock: said again after an answer that was lost, it counts once.
  const [clientEventId] = useState(clientId);
  const { item, person, startId } = clock;
  const answering = useChange(
    ['forgotten'],
    async (said: { stoppedAt: string | null; reason: string }) =>
      (await request(AnswerForgottenClockDocument, { input: { ...said, startId, clientEventId } }))
        .result,
  );
  return (
    <li className={odd.time}>
      <div className={odd.head}>
        <h3>
          {person.name}: {item.title}
        </h3>
        <p className={odd.second}>
          {item.order.aircraft.registration} · order {item.order.number}
        </p>
      </div>
      <div className={odd.seen}>
        <ForgottenLine clock={clock} timeZone={timeZone} now={now} />
      </div>
      <div className={odd.why}>
        <p>{whyWords(clock, 'their', now)}</p>
        {answers ? (
          <More words="Say how it was, for them">
            <AnswerForm clock={clock} timeZone={timeZone} whose="their" onAnswer={answering.go} />
          </More>
        ) : (
          <p>{person.name} is asked at the bench; the manager can say it for them.</p>
        )}
        {answering.sentence === undefined ? null : (
          <ErrorNote head="Not taken">{answering.sentence}</ErrorNote>
        )}
      </div>
    </li>
  );
}
