import { readFileSync } from 'node:fs';
import path from 'node:path';
import { Head, Html, Main, NextScript } from 'next/document';
import type { JSX } from 'react';

const read = new Map<string, string>();

/** A built style sheet with its typefaces where they are seen from the page itself. */
function styleOf(file: string): string {
  const known = read.get(file);
  if (known !== undefined) return known;
  const at = path.join(/* turbopackIgnore: true */ process.cwd(), '.next', file);
  const folder = path.posix.dirname(`/_next/${file}`);
  const style = readFileSync(at, 'utf8').replace(
    /url\((["']?)(\.\.?\/[^)"']+)\1\)/g,
    (_, quote: string, where: string) => `url(${quote}${path.posix.join(folder, where)}${quote})`,
  );
  read.set(file, style);
  return style;
}

/** The styles come in the page, 6 kB: on a telephone's network each further question is a third of a second of empty sheet. */
class HeadWithStyles extends Head {
  override getCssLinks(files: Parameters<Head['getCssLinks']>[0]): JSX.Element[] | null {
    if (process.env.NODE_ENV !== 'production') return super.getCssLinks(files);
    try {
      return files.allFiles
        .filter((file) => file.endsWith('.css'))
        .map((file) => <style key={file} dangerouslySetInnerHTML={{ __html: styleOf(file) }} />);
    } catch {
      return super.getCssLinks(files);
    }
  }
}

/** Pages that people outside of the shop open: no script, so the light is the one of their device. */
export default function PlainDocument() {
  return (
    <Html lang="en">
      <HeadWithStyles>
        <link rel="icon" href="/icon.svg" type="image/svg+xml" />
        <meta name="theme-color" media="(prefers-color-scheme: light)" content="#f4f0e6" />
        <meta name="theme-color" media="(prefers-color-scheme: dark)" content="#101b1c" />
        <meta name="format-detection" content="telephone=no, email=no, address=no, date=no" />
      </HeadWithStyles>
      <body>
        <Main />
        <NextScript />
      </body>
    </Html>
  );
}
