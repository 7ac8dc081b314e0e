import type { Metadata } from 'next';
import { StoresSheet } from '../../features/stores/stores-sheet.tsx';

export const metadata: Metadata = { title: 'Stores' };

export default function StoresPage() {
  return <StoresSheet />;
}
