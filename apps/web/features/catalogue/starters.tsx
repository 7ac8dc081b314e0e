'use client';

import { useRouter } from 'next/navigation';
import { useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Select } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import type { PackagesQuery } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './catalogue.module.css';
import { TakeStarterDocument } from './catalogue-documents.ts';
import { soldFor, soldForOptions } from './catalogue-words.ts';

type Starter = PackagesQuery['starterPackages'][number];

/** Inspections of the rule's whole scope, to be copied and then changed. */
export function Starters({
  starters,
  models,
}: {
  starters: readonly Starter[];
  models: PackagesQuery['models'];
}) {
  return (
    <section className={styles.part} aria-labelledby="starters">
      <h2 id="starters">Start from the rule</h2>
      <p className={styles.second}>
        Each line of 14 CFR part 43 appendix D, and for rotorcraft of 43.15(b), as a task with its
        list; panels first, the run-up last. A copy is the shop’s own. It comes without hours:
        nobody but the shop knows how long a line takes here.
      </p>
      {starters.map((starter) => (
        <OneStarter key={starter.key} starter={starter} models={models} />
      ))}
    </section>
  );
}

function OneStarter({ starter, models }: { starter: Starter; models: PackagesQuery['models'] }) {
  const router = useRouter();
  const options = soldForOptions(models, starter.aircraft);
  const [on, setOn] = useState(options[0]?.value ?? '');
  const made = useRef('');
  const taking = useDoing(
    async () => {
      const { answer } = await request(TakeStarterDocument, {
        input: { starter: starter.key, ...soldFor(on) },
      });
      if (answer.__typename === 'Package') made.current = answer.id;
      return answer;
    },
    () => router.push(`/shop/packages/${encodeURIComponent(made.current)}`),
  );
  const groups = [...new Set(starter.items.map(({ group }) => group))];
  return (
    <article className={styles.starter} aria-label={starter.title}>
      <h3>{starter.title}</h3>
      <p className={styles.second}>
        {starter.items.length} tasks; {starter.leftOut.length} lines of the rule left out.
      </p>
      <More words="What is in it, and what is left out">
        <ul className={styles.groups}>
          {groups.map((group) => (
            <li key={group}>
              <b>{group}</b>
              <ul>
                {starter.items
                  .filter((item) => item.group === group)
                  .map(({ paragraph, title }) => (
                    <li key={paragraph}>
                      {title} <span className={styles.rule}>{paragraph}</span>
                    </li>
                  ))}
              </ul>
            </li>
          ))}
          <li>
            <b>Left out</b>
            <ul>
              {starter.leftOut.map(({ paragraph, because }) => (
                <li key={paragraph}>
                  {because} <span className={styles.rule}>{paragraph}</span>
                </li>
              ))}
            </ul>
          </li>
        </ul>
      </More>
      <div className={styles.take}>
        <Select
          label="For"
          options={options}
          value={on}
          onChange={(event) => setOn(event.currentTarget.value)}
        />
        <Button
          onClick={() => taking.mutate(undefined)}
          busy={taking.isPending ? 'Copying' : undefined}
        >
          Take it over<span className="spoken">: {starter.title}</span>
        </Button>
      </div>
      {taking.error ? <ErrorNote head="Not taken over">{taking.error.message}</ErrorNote> : null}
    </article>
  );
}
