/** The fitting this program is named after: a cable running true through a guide, and its centre line. */
export function SheetMark() {
  return (
    <svg viewBox="0 0 46 26" aria-hidden="true" fill="none" stroke="currentColor">
      <path d="M16 3.5H30V22.5H16Z" strokeWidth="2" />
      <path d="M23 1V25" strokeDasharray="7 2 2 2" />
      <path d="M0 10.5H16M0 15.5H16M30 10.5H46M30 15.5H46" strokeWidth="2" />
      <path d="M16 10.5H30M16 15.5H30" strokeDasharray="3 2" />
    </svg>
  );
}
