import type { Metadata } from 'next';
import { PartSheet } from '../../../../features/stores/part-sheet.tsx';

export const metadata: Metadata = { title: 'A part' };

export default async function PartPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  return <PartSheet id={decodeURIComponent(id)} />;
}
