import type { Metadata } from 'next';
import { CoresSheet } from '../../../features/stores/cores-sheet.tsx';

export const metadata: Metadata = { title: 'Cores owed' };

export default function CoresPage() {
  return <CoresSheet />;
}
