import type { Metadata } from 'next';
import { OrderRecords } from '../../../features/records/order-records.tsx';

export const metadata: Metadata = { title: 'Order to sign' };

export default async function OrderRecordsPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  return <OrderRecords id={id} />;
}
