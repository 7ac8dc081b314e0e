import type { Metadata } from 'next';
import { ShopSheet } from '../../features/people/shop-sheet.tsx';

export const metadata: Metadata = { title: 'The shop' };

export default function ShopPage() {
  return <ShopSheet />;
}
