export {
  type Caution,
  type CautionPlace,
  cautionsOn,
  type Hazard,
  hazards,
  standingCautions,
} from './cautions.ts';
export {
  type Certificate,
  type CertificateKind,
  certificateNames,
  isGoodOn,
  lastDayOf,
} from './certificate.ts';
export { type CivilDate, isCivilDate } from './civil-date.ts';
export {
  type ComposedEntry,
  composeEntry,
  type EntryPlace,
  type RecordBook,
} from './compose-entry.ts';
export { type DiscrepancyListInput, discrepancyList, type ListedItem } from './discrepancy-list.ts';
export {
  type EntryDraft,
  type EntryFinding,
  type EntryItem,
  type EntrySignature,
  type GivenList,
  type InoperativeItem,
  type InspectionDone,
  type InspectionOutcome,
  inspectionNames,
  type MaintenanceDone,
} from './entry-draft.ts';
export { formatHours, hundredths, parseHours, type TimeInService } from './hours.ts';
export {
  annualDue,
  type CalendarDue,
  calendarMonthsDue,
  type HundredHourDue,
  type HundredHourStanding,
  hundredHourDue,
  hundredHourStanding,
} from './inspections-due.ts';
export {
  type KindOfWork,
  kindsOfWork,
  type StationRating,
  type WorkKind,
} from './kinds-of-work.ts';
export { type MissingElement, missingFromEntry } from './missing-from-entry.ts';
export { type MeterReading, type TimeInServiceAnswer, timeInService } from './time-in-service.ts';
export {
  type MayApprove,
  type ShopStanding,
  type Signer,
  type Work,
  whoMayApprove,
} from './who-may-approve.ts';
