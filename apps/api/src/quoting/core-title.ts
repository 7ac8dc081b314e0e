/** What the charge for a core is called wherever it is charged. */
export const coreTitle = (part: string) => `Core of ${part}: charged until the old one comes back`;
