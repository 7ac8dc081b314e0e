import type { GetServerSideProps, PageConfig } from 'next';
import Head from 'next/head';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { OwnerFrame } from '../../features/owner/owner-frame.tsx';
import { fetchOwnerPage, type OwnerPageData } from '../../features/owner/owner-page.ts';
import { OwnerSheet } from '../../features/owner/owner-sheet.tsx';

/** A page of plain forms: its reader's telephone loads no script at all. This is why it is not in app/. */
export const config: PageConfig = { unstable_runtimeJS: false };

interface Props {
  secret: string;
  /** Null while the shop's server does not answer. */
  page: OwnerPageData | null;
}

const text = (given: string | string[] | undefined) => (typeof given === 'string' ? given : '');

export const getServerSideProps: GetServerSideProps<Props> = async ({ query, res }) => {
  const secret = text(query['secret']);
  try {
    const note = { note: text(query['note']), seal: text(query['seal']) };
    const page = await fetchOwnerPage(secret, note);
    return page === null ? { notFound: true } : { props: { secret, page } };
  } catch {
    res.statusCode = 503;
    res.setHeader('retry-after', '30');
    return { props: { secret, page: null } };
  }
};

export default function OwnerPage({ page, secret }: Props) {
  return (
    <>
      <Head>
        <title>Your aircraft · Fairlead</title>
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="referrer" content="no-referrer" />
        <meta name="robots" content="noindex, nofollow, noarchive" />
      </Head>
      {page === null ? <Away /> : <OwnerSheet page={page} secret={secret} />}
    </>
  );
}

function Away() {
  return (
    <OwnerFrame shop="Fairlead" title="Your aircraft" notes={[]} titleBlock={null}>
      <ErrorNote head="The shop’s server does not answer">
        Nothing that you answered is lost. Open this address again in a few minutes, or call the
        shop.
      </ErrorNote>
    </OwnerFrame>
  );
}
