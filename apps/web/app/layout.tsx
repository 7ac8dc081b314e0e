import '@fontsource/b612/400.css';
import '@fontsource/b612/700.css';
import '@fontsource/b612-mono/400.css';
import './global.css';
import './other-letters.css';
import type { Metadata, Viewport } from 'next';
import { headers } from 'next/headers';
import type { ReactNode } from 'react';
import { HatchDefinitions } from '../components/Hatch.tsx';
import { QueryProvider } from '../lib/query-provider.tsx';
import { restoreScheme } from '../lib/scheme.ts';

export const metadata: Metadata = {
  title: { default: 'Fairlead', template: '%s · Fairlead' },
  robots: { index: false, follow: false },
  formatDetection: { telephone: false, email: false, address: false, date: false },
};

export const viewport: Viewport = {
  width: 'device-width',
  initialScale: 1,
  themeColor: [
    { media: '(prefers-color-scheme: light)', color: '#f4f0e6' },
    { media: '(prefers-color-scheme: dark)', color: '#101b1c' },
  ],
};

export default async function RootLayout({ children }: { children: ReactNode }) {
  // Reading the request's headers makes every page dynamic, which its nonce requires.
  const nonce = (await headers()).get('x-nonce') ?? undefined;
  return (
    <html lang="en" suppressHydrationWarning>
      <head>
        <script
          nonce={nonce}
          suppressHydrationWarning
          dangerouslySetInnerHTML={{ __html: restoreScheme }}
        />
      </head>
      <body>
        <HatchDefinitions />
        <QueryProvider>{children}</QueryProvider>
      </body>
    </html>
  );
}
