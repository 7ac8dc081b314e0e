import type { Metadata } from 'next';
import { AccountSheet } from '../../../../features/books/account-sheet.tsx';

export const metadata: Metadata = { title: 'Statement of account' };

export default async function AccountPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  return <AccountSheet id={decodeURIComponent(id)} />;
}
