import '@fontsource/b612/400.css';
import '@fontsource/b612/700.css';
import '@fontsource/b612-mono/400.css';
import '../app/global.css';
import '../app/other-letters.css';
import type { AppProps } from 'next/app';
import { HatchDefinitions } from '../components/Hatch.tsx';

/** What app/layout.tsx is to the sheets of the shop, for the pages that take no script. */
export default function PlainPages({ Component, pageProps }: AppProps) {
  return (
    <>
      <HatchDefinitions />
      <Component {...pageProps} />
    </>
  );
}
