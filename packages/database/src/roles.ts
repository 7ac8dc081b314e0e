/**
 * The database roles that a transaction may take on. The application's account is a member of all four and has no right of
 * its own; what a transaction may see and do is decided by the one that it chooses first.
 */
export const roles = {
  /** Inside one shop. */
  shop: 'fairlead_shop',
  /** An aircraft's owner, through a private link. */
  link: 'fairlead_link',
  /** Sign-in: the schema `identity` alone. */
  identity: 'fairlead_identity',
  /** The job queue, whose schema it owns. */
  jobs: 'fairlead_jobs',
} as const;

/** One of the four roles. */
export type Role = (typeof roles)[keyof typeof roles];
