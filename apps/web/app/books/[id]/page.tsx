import type { Metadata } from 'next';
import { InvoiceSheet } from '../../../features/books/invoice-sheet.tsx';

export const metadata: Metadata = { title: 'Invoice' };

export default async function InvoicePage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  return <InvoiceSheet id={decodeURIComponent(id)} />;
}
