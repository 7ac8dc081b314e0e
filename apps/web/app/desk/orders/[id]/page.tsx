import type { Metadata } from 'next';
import { OrderSheet } from '../../../../features/quoting/order-sheet.tsx';

export const metadata: Metadata = { title: 'Order' };

export default async function OrderPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  return <OrderSheet id={id} />;
}
