import * as z from 'zod';
import { partyAccepted } from './catalogue/party-accepted.js';
import { partyStopped } from './catalogue/party-stopped.js';
import { specificationAccepted } from './catalogue/specification-accepted.js';
import { cleanedDown } from './control/cleaned-down.js';
import { readingTaken } from './control/reading-taken.js';
import { formulaBakedByFrom } from './formulas/formula-baked-by-from.js';
import { formulaPutAway } from './formulas/formula-put-away.js';
import { accessEnded } from './inspection/access-ended.js';
import { accessGiven } from './inspection/access-given.js';
import { entryWithdrawn } from './kernel/entry-withdrawn.js';
import type { AnyKind } from './kernel/kind.js';
import { makeBegun } from './makes/make-begun.js';
import { weighedIn } from './makes/weighed-in.js';
import { goodsCameBack } from './out/came-back.js';
import { putOnCounter } from './out/put-on-counter.js';
import { sentOut } from './out/sent-out.js';
import { personJoined } from './people/person-joined.js';
import { personLeft } from './people/person-left.js';
import { roleGiven } from './people/role-given.js';
import { roleTakenAway } from './people/role-taken-away.js';
import { planPutInForce } from './plans/plan-put-in-force.js';
import { recallCallMade } from './recalls/recall-call-made.js';
import { recallClosed } from './recalls/recall-closed.js';
import { recallOpened } from './recalls/recall-opened.js';
import { instrumentInUse } from './sites/instrument-in-use.js';
import { instrumentOutOfUse } from './sites/instrument-out-of-use.js';
import { placeInUse } from './sites/place-in-use.js';
import { placeOutOfUse } from './sites/place-out-of-use.js';
import { probeChecked } from './sites/probe-checked.js';
import { deliveryReceived } from './stock/delivery-received.js';

/** The one list of kinds. Server, tablet, OpenAPI, phrases and tests all read it. */
export const kinds: readonly AnyKind[] = [
  entryWithdrawn,
  personJoined, personLeft, roleGiven, roleTakenAway,
  placeInUse, placeOutOfUse, instrumentInUse, instrumentOutOfUse, probeChecked,
  specificationAccepted, partyAccepted, partyStopped,
  formulaBakedByFrom, formulaPutAway, planPutInForce,
  deliveryReceived,
  makeBegun, weighedIn,
  readingTaken, cleanedDown,
  sentOut, goodsCameBack, putOnCounter,
  recallOpened, recallCallMade, recallClosed,
  accessGiven, accessEnded,
];

const byName = new Map(kinds.map((k) => [k.name, k]));
const named = z.looseObject({ kind: z.string() });

/** The kind that something sent says it is, if it is one. */
export function kindOf(raw: unknown): AnyKind | undefined {
  const parsed = named.safeParse(raw);
  return parsed.success ? byName.get(parsed.data.kind) : undefined;
}
