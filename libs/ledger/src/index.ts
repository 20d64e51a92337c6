export { fromBase64, toBase64 } from './base64.js';
export {
  bundleFormats,
  formatFor,
  readBundle,
  type BundleFormat,
  type Bundle,
  type BundleBook,
  type BundleEntry,
  type EarlierSeal,
  type OpenedWord,
} from './bundle.js';
export { fromHex, sameBytes, toHex, utf8 } from './bytes.js';
export { canonicalBytes, isCanonical } from './canonical.js';
export { checkpointText, readCheckpoint, type Checkpoint } from './checkpoint.js';
export { cosign, readCosignature, type Cosigned } from './cosignature.js';
export { Frontier, rootOf } from './frontier.js';
export { commitment, leafHash, nodeHash, sha256, type Sha256 } from './hash.js';
export { heldIn } from './held.js';
export { noteKey, publicKeyOf, readVerifierKey, readWitnessKey, verifierKey, witnessKey, type NoteKey } from './note-key.js';
export { openNote, signNote, textOfNote, type NoteFault, type OpenedNote } from './note.js';
export {
  followKeys,
  readKeyChange,
  signKeyChange,
  vouches,
  type KeyChange,
  type KeyFinding,
  type KeyHistory,
  type KeyTurn,
} from './key-change.js';
export { openBookSeal, openSeal, type OpenedSeal } from './open-seal.js';
export { consistencyProof, inclusionProof, Tree } from './tree.js';
export {
  type BookReport,
  type BundleReport,
  type EarlierFinding,
  type EntryFinding,
  type HeldFinding,
  type SealFinding,
} from './report.js';
export { verifyBundle } from './verify-bundle.js';
export { verifyConsistency, verifyInclusion, type Consistency, type Inclusion } from './verify-proofs.js';
export { judgeCheckpoint, readAddCheckpoint, writeAddCheckpoint, type AddCheckpoint, type Witnessed } from './witness.js';
