import type { Metadata } from 'next';
import { OrdersSheet } from '../../../features/stores/orders-sheet.tsx';

export const metadata: Metadata = { title: 'What to order' };

export default function OrdersPage() {
  return <OrdersSheet />;
}
