'use client';

import { useState } from 'react';
import { Choices } from '../../components/Choice.tsx';
import type { Entry } from './entry-documents.ts';
import { EntryForm } from './entry-form.tsx';
import { EntryPaper } from './entry-paper.tsx';
import styles from './records.module.css';
import type { BookToSign, OrderToSign, Signing } from './records-documents.ts';
import { nameOfBook } from './records-words.ts';

/** The entries of an order, book by book: the one to sign as it will be signed, the signed ones as they stand. */
export function BooksPart({
  order,
  signing,
  inspector,
  timeZone,
}: {
  order: OrderToSign;
  signing: Signing;
  inspector: boolean;
  timeZone: string;
}) {
  const open = signing.books.filter(({ needed, signed, left }) =>
    needed ? !signed || left > 0 : left > 0,
  );
  const [chosen, setChosen] = useState<string | null>(null);
  const [corrects, setCorrects] = useState<Entry | null>(null);
  const here = order.state === 'here' || order.state === 'ready_to_sign';
  const book = open.find((each) => each.book.id === chosen) ?? open[0];
  return (
    <section className={styles.part} aria-labelledby="entries">
      <h2 id="entries">Entries</h2>
      {order.entries.map((entry) => (
        <EntryPaper
          key={entry.id}
          entry={entry}
          timeZone={timeZone}
          {...(inspector && entry.corrections.length === 0
            ? { onCorrect: () => setCorrects(entry) }
            : {})}
        />
      ))}
      {corrects !== null ? (
        <EntryForm
          key={corrects.id}
          order={order}
          book={corrects.book}
          corrects={corrects}
          inspector={inspector}
          onDone={() => setCorrects(null)}
        />
      ) : !here || book === undefined ? (
        <p className={styles.quiet}>
          {order.entries.length === 0
            ? 'No entry is signed, and none can be: the aircraft is not here.'
            : 'Every book that the work concerns has its entry.'}
        </p>
      ) : (
        <>
          {open.length > 1 ? (
            <div data-screen-only="">
              <Choices
                legend="Which book"
                name="book"
                value={book.book.id}
                onChoose={setChosen}
                options={open.map(optionOf)}
              />
            </div>
          ) : null}
          <EntryForm key={book.book.id} order={order} book={book.book} inspector={inspector} />
        </>
      )}
    </section>
  );
}

function optionOf({ book, left }: BookToSign) {
  return {
    value: book.id,
    words: nameOfBook(book),
    note:
      left === 0
        ? 'no finished item of its chapters yet'
        : `${left} finished ${left === 1 ? 'item' : 'items'}`,
  };
}
