import type { Metadata } from 'next';
import { Sheet } from '../../components/Sheet.tsx';
import { CableRun } from './cable-run.tsx';
import { QuickSignIn } from './quick-sign-in.tsx';
import styles from './sign-in.module.css';
import { SignInForm } from './sign-in-form.tsx';

export const metadata: Metadata = { title: 'Sign in' };

export default async function SignInPage({
  searchParams,
}: {
  searchParams: Promise<{ back?: string | string[] }>;
}) {
  const { back } = await searchParams;
  return (
    <Sheet
      title="Sign in"
      titleBlock={{
        what: 'Sign in',
        cells: [
          { label: 'For', value: 'People of the shop', span: 'half' },
          { label: 'Accounts', value: 'By invitation of the manager', span: 'half' },
        ],
      }}
    >
      <div className={styles.sheet}>
        <QuickSignIn>
          <SignInForm back={ownPath(back)} />
        </QuickSignIn>
        <CableRun />
      </div>
    </Sheet>
  );
}

/** Only a path of this site: never an address that a stranger's link has put there. */
function ownPath(back: string | string[] | undefined): string {
  const here = 'http://here.invalid';
  if (typeof back !== 'string' || !URL.canParse(back, here)) return '/';
  const url = new URL(back, here);
  return url.origin === here ? url.pathname + url.search : '/';
}
