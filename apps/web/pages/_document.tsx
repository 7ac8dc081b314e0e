import { Head, Html, Main, NextScript } from 'next/document';

/** Pages that people outside of the shop open: no script, so the light is the one of their device. */
export default function PlainDocument() {
  return (
    <Html lang="en">
      <Head>
        <link rel="icon" href="/icon.svg" type="image/svg+xml" />
        <meta name="theme-color" media="(prefers-color-scheme: light)" content="#f4f0e6" />
        <meta name="theme-color" media="(prefers-color-scheme: dark)" content="#101b1c" />
        <meta name="format-detection" content="telephone=no, email=no, address=no, date=no" />
      </Head>
      <body>
        <Main />
        <NextScript />
      </body>
    </Html>
  );
}
