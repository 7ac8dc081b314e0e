'use client';

import { useInfiniteQuery, useQueryClient } from '@tanstack/react-query';
import { Button } from '../../components/Button.tsx';
import { Empty, Loading } from '../../components/Empty.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { request } from '../../graphql/request.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { MailRow } from './mail-row.tsx';
import styles from './post.module.css';
import { type MailOnSheet, PostDocument } from './post-documents.ts';

const notes = [
  'A mail that the mail server does not take is tried again, after a minute at first, after four hours at last, for five days.',
  'A mail is handed over once. Where a machine failed in the very moment of handing over, it may come twice, under one Message-ID.',
  'Papers are drawn once for their mail and kept as they went. A private link is kept nowhere.',
];

/** The post of the shop: what waits, what did not go and why, and everything that went. */
export function PostSheet() {
  const viewer = useViewer();
  const queries = useQueryClient();
  const post = useInfiniteQuery({
    queryKey: ['post'],
    initialPageParam: null as string | null,
    queryFn: ({ pageParam }) => request(PostDocument, { after: pageParam }),
    getNextPageParam: ({ mails: { pageInfo } }) =>
      pageInfo.hasNextPage ? pageInfo.endCursor : undefined,
    enabled: viewer.data !== undefined,
  });
  const problem = viewer.error ?? post.error;
  const first = post.data?.pages[0];
  const open = first?.open.edges.map(({ node }) => node) ?? [];
  const failed = open.filter(({ state }) => state === 'failed');
  const waits = open.filter(({ state }) => state === 'waits');
  const all = post.data?.pages.flatMap(({ mails }) => mails.edges.map(({ node }) => node)) ?? [];
  const rest = all.filter(({ state }) => state !== 'failed' && state !== 'waits');
  const shop = viewer.data?.shop;
  const part = (head: string, mails: readonly MailOnSheet[]) =>
    mails.length === 0 || !shop ? null : (
      <section aria-label={head} className={styles.part}>
        <h2>{head}</h2>
        <ul className={styles.list}>
          {mails.map((mail, index) => (
            <MailRow
              key={`${mail.id} ${mail.state}`}
              mail={mail}
              timeZone={shop.timeZone}
              open={mail.state === 'kept' && index === 0}
              sends={first?.sendsMail === true}
            />
          ))}
        </ul>
      </section>
    );
  return (
    <Sheet
      here="desk"
      viewer={viewer.data?.person ?? null}
      title="Post"
      notes={notes}
      titleBlock={{
        what: 'Mail of the shop',
        cells: [
          { label: 'Mails', value: first?.mails.totalCount ?? '', figures: true },
          { label: 'Wait', value: first ? waits.length : '', figures: true },
          { label: 'Did not go', value: first ? failed.length : '', figures: true },
          { label: 'Date', value: shop ? dayText(new Date(), shop.timeZone) : '', figures: true },
          { label: 'Shop', value: shop?.name ?? '', span: 'half' },
        ],
      }}
    >
      {first ? (
        <div className={styles.parts}>
          {first.sendsMail ? null : (
            <p className={styles.none}>
              No mail server is set: mails are kept here and none is sent. Whoever runs the program
              sets one with SMTP_HOST and MAIL_FROM.
            </p>
          )}
          {first.sendsMail ? (
            <p className={styles.none}>
              “Sent” means that the mail server took it, no more. If it cannot be delivered after
              that, word of it comes as a mail to the address that mail is sent from, not to this
              sheet.
            </p>
          ) : null}
          {part('Did not go', failed)}
          {part('Wait', waits)}
          {part(open.length === 0 ? 'The last first' : 'The rest, the last first', rest)}
          {first.mails.totalCount === 0 ? (
            <Empty draws="sheet">
              Nothing was mailed yet: a quote sent by e-mail is the first that is.
            </Empty>
          ) : null}
          {post.hasNextPage ? (
            <div>
              <Button
                busy={post.isFetchingNextPage ? 'Fetching' : undefined}
                onClick={() => void post.fetchNextPage()}
              >
                Earlier mails
              </Button>
            </div>
          ) : null}
        </div>
      ) : problem ? (
        <NoAnswer
          head="No post to show"
          problem={problem}
          onAgain={() => void queries.refetchQueries()}
        />
      ) : (
        <Loading>Fetching the post</Loading>
      )}
    </Sheet>
  );
}
