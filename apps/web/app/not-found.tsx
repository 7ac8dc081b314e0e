import { NotFoundLate } from './not-found-late.tsx';

export default function NotFoundPage() {
  return <NotFoundLate />;
}
