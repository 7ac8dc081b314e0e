export { canonical, readCanonical } from './canonical.ts';
export { chainFaults, type Fault, photosOf } from './chain.ts';
export {
  KEYS,
  type KeyChange,
  keyChangeFaults,
  readKeyChange,
  writeKeyChange,
} from './key-change.ts';
export {
  fingerprintOf,
  isPublicKey,
  type PublicKey,
  type SigningKey,
  sha256,
  signedBy,
  signingKey,
} from './keys.ts';
export {
  type Content,
  type Link,
  type LinkKind,
  linkHash,
  makeLink,
  NOTHING_BEFORE,
  readLink,
  type Statement,
  signedText,
  writeLink,
} from './link.ts';
export {
  ATTACHMENTS,
  RECEIVED,
  RECORDS,
  readSeal,
  SEAL,
  type Seal,
  type SealedFile,
  writeSeal,
} from './seal.ts';
export { BLOCK, headerOf, type Member, NotAnArchive, readTar } from './tar.ts';
export { type Verdict, type VerifyOptions, verifyArchive } from './verify.ts';
