import Head from 'next/head';
import { OwnerFrame } from '../features/owner/owner-frame.tsx';

/** A fault of ours while drawing a page that takes no script. */
export default function ErrorPage() {
  return (
    <>
      <Head>
        <title>This page could not be drawn · Fairlead</title>
        <meta name="viewport" content="width=device-width, initial-scale=1" />
      </Head>
      <OwnerFrame shop="Fairlead" title="This page could not be drawn" notes={[]} titleBlock={null}>
        <p>
          A fault of the program. Nothing that was sent is lost. Open the address again, or call the
          shop.
        </p>
      </OwnerFrame>
    </>
  );
}
