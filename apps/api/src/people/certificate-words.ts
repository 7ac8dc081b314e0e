import { certificateNames } from '@fairlead/airworthiness';
import type { CertificateKind } from '@fairlead/database';

/** Kinds of certificates in words, for sentences. */
export const certificateWords: Record<CertificateKind, string> = {
  mechanic_airframe: certificateNames.mechanic_airframe,
  mechanic_powerplant: certificateNames.mechanic_powerplant,
  inspection_authorization: certificateNames.inspection_authorization,
  repairman: certificateNames.repairman,
  private_pilot: certificateNames.private_pilot,
  repair_station_inspector: 'place on the roster of repair station inspectors',
};
