/**
 * The shapes of the demo shop's files, and one reader for them.
 *
 * Everything points at everything else by a readable key ("exhaust-collector-replace", "QQ-117",
 * "marta"). A time is an offset from the demo's first day, so that the demo is always today.
 * Prices and rates are decimal strings in the shop's currency (shop.json); hours are decimal strings.
 * What a quote or an invoice comes to is nowhere in the files: the program computes it.
 */
import { readFileSync } from 'node:fs';

/** A time counted from the demo's first day (day 0); the shop's own local time. */
export type DemoTime = { day: number; time?: string };

export type Sight = 'direct' | 'mirror' | 'feel';
export type Posture = 'upright' | 'bent' | 'lying';
export type Reach = 'forearm' | 'arm';

/** What makes a place hard to work in: millimetres, degrees, number of locked fasteners. */
export type Conditions = {
  clearanceMm: number;
  sight: Sight;
  posture: Posture;
  reach: Reach;
  swingDeg: number;
  held: boolean;
  lockedFasteners: number;
};

export type DemoTask = {
  key: string;
  title: string;
  jasc: string;
  standardHours: string;
  models: string[];
  critical: boolean;
  cautions: string[];
  statedFor: Partial<Conditions>;
  reference: string;
  paragraphs?: string[];
};
export type DemoTasks = {
  defaultConditions: Conditions;
  cautions: Record<string, string>;
  referenceNote: string;
  tasks: DemoTask[];
};
export type DemoPlace = {
  task: string;
  model: string;
  conditions: Partial<Conditions>;
  note: string;
};
/** A directive or a bulletin of an invented authority or maker, and who decided on it. */
export type DemoDirective = {
  key: string;
  kind: 'directive' | 'bulletin';
  authority: string;
  number: string;
  revision: string;
  revisedOn: DemoTime;
  effectiveOn: DemoTime;
  subject: string;
  method: string;
  withinHours?: string;
  withinDays?: number;
  everyHours?: string;
  terminating?: string;
  task: string;
  reaches: { model?: string; partNumber?: string; serials: string }[];
  decisions: { aircraft: string; binds: boolean; reason: string }[];
};
export type DemoModel = {
  key: string;
  maker: string;
  name: string;
  kind: string;
  seats: number;
  engines: number;
  fuel: string;
  dimensionsMm: Record<string, number>;
  parkedMm: { length: number; width: number; height: number; how: string };
  meters: string[];
};
export type DemoComponent = {
  kind: string;
  position: string;
  partNumber: string;
  serial: string;
  fitted: { day: number; timeInService: string };
  sinceNewAtFitting: string;
  sinceOverhaulAtFitting?: string;
  overhaulHours?: string;
  overhaulMonths?: number;
  lifeHours?: string;
  lifeMonths?: number;
};
export type DemoAircraft = {
  registration: string;
  model: string;
  serial: string;
  builtYearsAgo: number;
  note?: string;
  meters: {
    key: string;
    reading: string;
    unit: string;
    timeInServiceAtZero: string;
    at: DemoTime;
  }[];
  timeInService: string;
  recordBooks: { kind: string; position?: string; opened: DemoTime; timeAtOpening: string }[];
  components: DemoComponent[];
  inspections: { kind: string; day: number; timeInService: string }[];
};
export type DemoPerson = {
  key: string;
  name: string;
  initials: string;
  email: string;
  roles: string[];
  supervisor?: string;
  certificates: {
    kind: string;
    number: string;
    ratings: string[];
    issued: DemoTime;
    /** An inspection authorization ends on 31 March of an odd year (14 CFR 65.92). */
    expires?: { nextOddYear: string };
  }[];
  note?: string;
  signIn: { passphrase: string };
};
/** For the post and for invoices. Invented, but for the country, which the e-invoice's rules want from ISO 3166-1. */
export type DemoPostalAddress = { line1: string; city: string; postcode: string; country: string };
export type DemoContacts = {
  contacts: {
    key: string;
    kind: 'person' | 'organisation';
    name: string;
    email: string;
    phone: string;
    of?: string;
    address?: string[];
    postalAddress?: DemoPostalAddress;
  }[];
  authorities: {
    aircraft: string;
    contact: string;
    roles: string[];
    mayAuthorise: 'any' | 'up-to' | 'none';
    upTo?: string;
    note?: string;
  }[];
};
export type DemoPackage = {
  key: string;
  title: string;
  inspection: string | null;
  models: string[];
  tasks: string[];
  parts: { part: string; quantity: string }[];
  fixedPriceLabour: string;
  /** What its manager tells of the years before: found so often in so many, parts net. */
  toldFindings: { task: string; seen: number; of: number; parts: string }[];
};
export type DemoPart = {
  key: string;
  number: string;
  title: string;
  unit: string;
  price: string;
  taxKey: string;
  note?: string;
  /** For one unit, until the old one comes back. */
  coreCharge?: string;
  reorderPoint?: string;
  /** What stands in for it. */
  instead?: { part: string; kind: 'superseded' | 'alternate'; by: string; source: string };
  lots: {
    batch: string;
    tag: string;
    supplier: string;
    received: DemoTime;
    quantity: string;
    unitCost: string;
    place: string;
    useBefore?: DemoTime;
  }[];
};
export type Rectangle = { xM: number; yM: number; widthM: number; depthM: number };
export type DemoOccupancy = {
  aircraft: string;
  stand: string;
  from: DemoTime;
  to: DemoTime | null;
  order: string | null;
  note?: string;
};
export type DemoHangar = {
  key: string;
  name: string;
  plan: string;
  widthM: number;
  depthM: number;
  clearHeightM: number;
  door: { wall: string; fromM: number; toM: number; heightM: number };
  clearanceM: { besideAircraft: number; source: string };
  stands: (Rectangle & { key: string; name: string; nose: string })[];
  fixtures: (Rectangle & { name: string })[];
  occupancy: DemoOccupancy[];
  plannedOccupancy: DemoOccupancy[];
};
export type DemoRates = {
  currency: string;
  labour: { key: string; title: string; perHour: string; from: DemoTime; to?: DemoTime }[];
  notBilled: string[];
  tax: { key: string; title: string; percent: string; from: DemoTime }[];
  taxNote: string;
  /** Of the keys of `labour`, those that are kinds of work. */
  kindsOfWork: string[];
  /** For parts without a price of their own, from a cost of one unit on. */
  markUp: { from: DemoTime; by: string; bands: { costFrom: string; percent: string }[] };
  supplies: { percent: string; cap: string; from: DemoTime; by: string };
};

/**
 * What is offered, without its figures: the program prices a package, a task and a part as it would
 * for any shop, from this shop's rates, price list and clocked history.
 */
export type DemoLine =
  | { kind: 'package'; package: string }
  | { kind: 'task'; task: string }
  | { kind: 'part'; part: string; quantity: string };
export type DemoQuote = {
  key: string;
  aircraft: string;
  to: string;
  revisions: {
    revision: number;
    drafted: DemoTime;
    sent: DemoTime | null;
    by: string;
    lines: DemoLine[];
  }[];
  authorisation: {
    by: string;
    at: DemoTime;
    how: string;
    recordedBy: string;
    revision: number;
    /** Before tax. */
    ceiling: string;
    readOut: string;
  } | null;
};
export type DemoFinding = {
  key: string;
  foundDuring: string | null;
  squawk?: string;
  task: string | null;
  jasc: string;
  title: string;
  words: string;
  where: string;
  /** The same as a zone of the side view, as the drawings name it. */
  zone: string;
  /** What the finder saw, in the terms of packages/diagnosis. */
  seen: { symptom: string; answers: Record<string, string> };
  /** The cause that it turned out to be, of those listed. */
  turnedOut?: { at: DemoTime; by: string; cause: string };
  noted: { at: DemoTime; by: string; provisionalClass: string };
  photos: { file: string; at: DemoTime; by: string; caption: string }[];
  assessed?: { at: DemoTime; by: string; class: string; words: string };
  offered?: {
    at: DemoTime;
    by: string;
    to: string;
    reason: string;
    lines: DemoLine[];
    addsDays: number;
  };
  decision?: {
    at: DemoTime;
    by: string;
    how: string;
    recordedBy: string;
    answer: string;
    /** Before tax; left out: as far as nine in ten should come out under. */
    ceiling?: string;
    readOut?: string;
  };
  corrected?: { at: DemoTime; by: string; words: string };
};
export type DemoStretch = { person: string; item: string; day: number; from: string; to: string };
export type DemoOrder = {
  key: string;
  aircraft: string;
  title: string;
  quote: string;
  package: string | null;
  planned: { arrives: DemoTime; promised: DemoTime; stand: string };
  arrival: {
    at: DemoTime;
    receivedBy: string;
    handedOverBy: string;
    readings: { meter: string; reading: string }[];
    cameWith: string[];
    fuel: string;
    squawks: { key: string; words: string; by: string }[];
  } | null;
  items: {
    key: string;
    task: string;
    finding?: string;
    waiting?: { reason: string; part?: string; expected?: DemoTime; since: DemoTime };
    /** `words` say what was done where that is more than the manual's own. */
    done?: { at: DemoTime; by: string; words?: string };
    /** Told by who finished it, for whoever does it next. */
    learned?: { words: string; everyModel?: boolean };
    inspected?: { at: DemoTime; by: string };
  }[];
  stretches: DemoStretch[];
  findings: DemoFinding[];
  partsUsed: { item: string; part: string; tag: string; quantity: string; at: DemoTime }[];
  release: {
    at: DemoTime;
    by: string;
    outcome: 'airworthy' | 'not_airworthy_list_given';
    /** Kinds of the record books that are signed. */
    books: string[];
  } | null;
  /** Billed by the program, and paid in full each time a payment is named. */
  invoice: {
    issued: DemoTime;
    by: string;
    payments: { at: DemoTime; how: string }[];
  } | null;
};

/** What somebody did, when. `item` is a key of the order's; null: for the order. */
type DemoCare = { item: string | null; at: DemoTime; by: string };
export type DemoCareOrder = {
  openLines: (DemoCare & {
    kind: 'opened' | 'removed';
    words: string;
    place: string;
    closed?: { at: DemoTime; by: string };
  })[];
  counts: (DemoCare & { kind: 'out' | 'back'; lines: { name: string; number: number }[] })[];
  handOvers: (DemoCare & { done: string; notDone: string; loose: string })[];
  initials: (DemoCare & { item: string; line: number })[];
  looks: {
    kind: 'after_standing' | 'after_run_up';
    plannedFor: DemoTime;
    at: DemoTime;
    by: string;
  }[];
  torques: (DemoCare & {
    item: string;
    fastener: string;
    torque: string;
    unit: 'in_lb' | 'ft_lb' | 'n_m';
    tool: string;
    reason: string;
  })[];
  compressions: (DemoCare & { item: string; supply: number; held: number[] })[];
};

/** Every file of the demo shop and what it holds. */
export type DemoFiles = {
  'shop.json': {
    key: string;
    name: string;
    legalName: string;
    address: string[];
    postalAddress: DemoPostalAddress;
    registrations: { taxNumber: string; registrationNumber: string };
    email: string;
    phone: string;
    timeZone: string;
    currency: string;
    about: string;
    standing: { kind: string; rules: string; note: string };
    timeInServiceBasis: string;
    labourBilling: { roundingHours: string; rule: string };
    quoteValidDays: number;
    ceilingRule: { kind: string; note: string };
    invoicePrefix: string;
    hours: { opens: string; closes: string; days: string[] };
    /** Numbers that the shop had given on paper before; its counters carry on from here. */
    numbersGiven: { quote: number; order: number; invoice: number };
  };
  'people.json': DemoPerson[];
  'contacts.json': DemoContacts;
  'models.json': DemoModel[];
  'aircraft.json': DemoAircraft[];
  'directives.json': DemoDirective[];
  'tasks.json': DemoTasks;
  'places.json': { note: string; places: DemoPlace[] };
  'packages.json': { note: string; packages: DemoPackage[] };
  'parts.json': { suppliers: { name: string; email: string }[]; parts: DemoPart[] };
  'hangar.json': DemoHangar;
  'rates.json': DemoRates;
  'orders.json': { quotes: DemoQuote[]; orders: DemoOrder[] };
  'care.json': {
    /** Lines of a task's checklist, by the task's key. */
    checklists: Record<string, string[]>;
    tools: {
      key: string;
      kind: 'torque_wrench' | 'test_gear';
      name: string;
      number: string;
      goodUntil: DemoTime;
      words: string;
      added: DemoTime;
    }[];
    orders: Record<string, DemoCareOrder>;
  };
};

/** Reads one file of the demo shop, typed by its name. The tests in tests/api/demo check what is inside. */
export function readDemo<Name extends keyof DemoFiles>(name: Name): DemoFiles[Name] {
  return JSON.parse(readFileSync(new URL(name, import.meta.url), 'utf8')) as DemoFiles[Name];
}
