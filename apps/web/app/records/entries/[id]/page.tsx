import type { Metadata } from 'next';
import { EntrySheet } from '../../../../features/records/entry-sheet.tsx';

export const metadata: Metadata = { title: 'Entry' };

export default async function EntryPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  return <EntrySheet id={id} />;
}
