import type { Metadata } from 'next';
import { LotSheet } from '../../../../features/stores/lot-sheet.tsx';

export const metadata: Metadata = { title: 'A lot' };

export default async function LotPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  return <LotSheet id={decodeURIComponent(id)} />;
}
