import type { Metadata } from 'next';
import { PurchaseSheet } from '../../../../features/stores/purchase-sheet.tsx';

export const metadata: Metadata = { title: 'Purchase order' };

export default async function PurchasePage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  return <PurchaseSheet id={decodeURIComponent(id)} />;
}
