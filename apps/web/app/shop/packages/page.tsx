import type { Metadata } from 'next';
import { PackagesSheet } from '../../../features/catalogue/packages-sheet.tsx';

export const metadata: Metadata = { title: 'Packages' };

export default function PackagesPage() {
  return <PackagesSheet />;
}
