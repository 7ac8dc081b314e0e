import type { Metadata } from 'next';
import { PartSheet } from '../../../../features/programme/part-sheet.tsx';

export const metadata: Metadata = { title: 'A part with times' };

export default async function PartPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  return <PartSheet id={id} />;
}
