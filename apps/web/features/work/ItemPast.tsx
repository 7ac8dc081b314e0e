'use client';

import { Balloon } from '../../components/Balloon.tsx';
import { Photos, photoOfShop } from '../../components/Photos.tsx';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { useUnsentFacts } from '../safety/kept-facts.ts';
import styles from './bench.module.css';
import type { ItemOnSheet } from './item-documents.ts';
import { MarkPhoto } from './MarkPhoto.tsx';
import { marksNow } from './marks-now.ts';
import { ViewLink } from './view.tsx';
import { waitingWords } from './work-words.ts';

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
export function FoundHere({ item }: { item: ItemOnSheet }) {
  const facts = useUnsentFacts();
  return (
    <section className={styles.form} aria-labelledby="found-here">
      <h2 id="found-here">Found while at it</h2>
      {item.findings.map(({ id, number, title, photos, photoPairs }) => (
        <div key={id} className={styles.form}>
          <h3 className={styles.foundTitle}>
            <Balloon number={number} /> {title}
          </h3>
          <Photos of={title} photos={marksNow(photos, facts).map(photoOfShop)} pairs={photoPairs} />
          {marksNow(photos, facts).map(({ unsent, ...photo }, index) => (
            <div key={photo.id}>
              <MarkPhoto photo={photoOfShop(photo)} name={`photo ${index + 1}`} of={title} />
              {unsent ? (
                <p className={styles.second}>Marks on photo {index + 1}: not sent yet</p>
              ) : null}
            </div>
          ))}
          <ViewLink className={styles.found} view={{ kind: 'finding', id }}>
            What it may be<span className="spoken">: {title}</span>
          </ViewLink>
        </div>
      ))}
    </section>
  );
}

/** What happened to it besides the clock. */
export function History({ item, timeZone }: { item: ItemOnSheet; timeZone: string }) {
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
