import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { fetchOwnerPage } from '../../../features/owner/owner-page.ts';
import { OwnerSheet } from '../../../features/owner/owner-sheet.tsx';

// The address is the key to the page: it goes to no other site and into no index.
export const metadata: Metadata = {
  title: 'Your aircraft',
  referrer: 'no-referrer',
  robots: { index: false, follow: false, noarchive: true },
};

const text = (given: string | string[] | undefined) => (typeof given === 'string' ? given : '');

export default async function OwnerPage({
  params,
  searchParams,
}: {
  params: Promise<{ secret: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { secret } = await params;
  const { note, seal } = await searchParams;
  const page = await fetchOwnerPage(secret, { note: text(note), seal: text(seal) });
  if (page === null) notFound();
  return <OwnerSheet page={page} secret={secret} />;
}
