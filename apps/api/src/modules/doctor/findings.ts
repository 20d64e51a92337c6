import type { BackupState } from '../../platform/backups/index.js';
import type { HouseFacts } from './house-facts.query.js';

/** Something about a house or its service that is wrong, or worth knowing, and what to do. */
export interface Finding {
  readonly weight: 'wrong' | 'to-know';
  readonly says: string;
}

const dayMs = 86_400_000;
const sealDays = 7;
const waitingDays = 2;
const manyWrongPins = 50;

const wrong = (says: string): Finding => ({ weight: 'wrong', says });
const toKnow = (says: string): Finding => ({ weight: 'to-know', says });
const daysSince = (instant: string, now: Date): number => Math.floor((now.getTime() - Date.parse(instant)) / dayMs);

const nameOf = (key: string): string => key.split('+', 1)[0] ?? key;

/** What is to be said of one house, by what is known of it. */
export function aboutHouse(f: HouseFacts, now: Date): readonly Finding[] {
  const found: Finding[] = [];
  if (f.administrators === 0)
    found.push(wrong('Nobody with a PIN is administrator: nobody can let people in or set a PIN. Restore a backup of when there was one.'));
  if (f.administrators === 1)
    found.push(toKnow('One person alone is administrator. If they lose their PIN, nobody can set it: make a second one.'));
  if (f.leads === 0)
    found.push(
      wrong(
        'Nobody with a PIN is food-safety lead: no plan can be put in force, and nobody can release what is on hold. An administrator gives the role.',
      ),
    );
  for (const site of f.sitesWithoutPlan)
    found.push(
      wrong(
        `${site} has no HACCP plan in force: readings there have no limits. Office, Plan: draft one; the food-safety lead puts it in force.`,
      ),
    );
  if (f.formulas === 0) found.push(toKnow('There is no approved formula yet: doughs cannot be begun. Office, Formulas.'));
  if (f.tablets === 0) found.push(toKnow('No tablet is enrolled: nobody can record without a PIN, or without a network. Office, People.'));
  if (f.refused > 0)
    found.push(
      toKnow(
        `${f.refused} ${f.refused === 1 ? 'entry was' : 'entries were'} refused and never recorded. Goods in, Open: read them, and record again what is missing.`,
      ),
    );
  if (f.oldestWaiting !== null && daysSince(f.oldestWaiting, now) >= waitingDays)
    found.push(
      wrong(
        `An entry has waited ${daysSince(f.oldestWaiting, now)} days for another one that never came. A tablet may still hold it: find it and connect it.`,
      ),
    );
  if (f.wrongPinsOfADay >= manyWrongPins)
    found.push(
      wrong(`${f.wrongPinsOfADay} wrong PINs in the last 24 hours. Somebody may be guessing: Office, At the door, says from where.`),
    );
  if (f.historyDiffers > 0)
    found.push(
      wrong(
        'In the last 30 days a tablet saw records that do not go on from those that it had seen: Office, At the door, says which. Where a backup was put back that is why; ' +
          'else change nothing, run npm run records -- verify, and compare with the seals that left the house.',
      ),
    );
  for (const { name, witness, since } of f.notCosigned)
    found.push(
      wrong(
        `${name}: the seal of ${since.slice(0, 10)} was not cosigned by ${nameOf(witness)}. The service’s log says why; npm run records -- seal asks again. ` +
          'Where it refuses, it has seen other records than these: change nothing, and run npm run records -- verify.',
      ),
    );
  for (const { name, size, at } of f.keyLost)
    found.push(
      toKnow(
        `${name}: the key for seals was lost after ${size} records, said on ${at.slice(0, 10)}. Nothing that was signed before vouches for the key after it: those who check compare it with you in person.`,
      ),
    );
  for (const { name, since, lastSeal } of f.unsealed) {
    if (daysSince(since, now) < sealDays) continue;
    const last = lastSeal === null ? 'was never sealed' : `was last sealed ${daysSince(lastSeal, now)} days ago`;
    found.push(
      toKnow(
        `${name} ${last}, and has records since. Print a paper, or open the officer’s page: each makes a seal. Keep it outside the house.`,
      ),
    );
  }
  return found;
}

/** How the key for seals that is here stands to what was sealed; `none`: nothing was sealed either. */
export type KeyState = 'right' | 'none' | 'away' | 'not-the-last' | 'signed-nothing';
const whereLost = 'Where nobody has it any more: npm run records -- seal --key-lost says so and begins with another.';

/** What is known of the machine and its settings. */
export interface ServiceFacts {
  readonly freeMb: number | null;
  readonly leastFreeMb: number;
  /** The database's clock less this machine's, in ms. */
  readonly clockMs: number;
  readonly sealKey: KeyState;
  readonly backups: BackupState;
  /** How seals leave the house: into which folder, and of which day (UTC) the newest file there is; to how many witnesses. */
  readonly sealsFolder: { readonly folder: string; readonly newest: string | null; readonly today: string } | null;
  readonly witnesses: number;
  readonly servedBeyondThisMachine: boolean;
  readonly behindProxy: boolean;
}

const keySays: Readonly<Record<KeyState, readonly Finding[]>> = {
  right: [],
  none: [
    toKnow(
      'There is no key for seals here yet. One is made with the first seal; on a server with several processes give all the same SEAL_KEY.',
    ),
  ],
  'not-the-last': [
    wrong(
      'The key for seals was changed, and the key that is here is not the new one: no seal is made. Start the service with the SEAL_KEY that the change printed; ' +
        `where it is in a file, start the service again, which ends a change that was cut off. ${whereLost}`,
    ),
  ],
  away: [wrong(`The key that signed the seals is not here: no seal is made, and a start is refused. A backup holds it. ${whereLost}`)],
  'signed-nothing': [
    wrong(
      `There are seals, and the key that is here signed none of them: a start is refused. Put the right key into SEAL_KEY. ${whereLost}`,
    ),
  ],
};

const tightTimes = 5;
const clockApartMs = 2_000;

export function aboutService(f: ServiceFacts): readonly Finding[] {
  const found: Finding[] = [];
  if (f.freeMb !== null && f.freeMb < f.leastFreeMb)
    found.push(wrong(`The disk has ${f.freeMb} MB left: nothing can be recorded for certain. Free some space now.`));
  else if (f.freeMb !== null && f.freeMb < f.leastFreeMb * tightTimes)
    found.push(toKnow(`The disk has ${f.freeMb} MB left; below ${f.leastFreeMb} MB the service says that it is not ready.`));
  if (Math.abs(f.clockMs) > clockApartMs)
    found.push(
      wrong(
        `The database’s clock and this machine’s are ${(Math.abs(f.clockMs) / 1000).toFixed(1)} s apart. Set both by the network’s time.`,
      ),
    );
  found.push(...aboutBackups(f.backups));
  found.push(...keySays[f.sealKey]);
  found.push(...aboutLeaving(f));
  if (f.servedBeyondThisMachine && !f.behindProxy)
    found.push(
      toKnow(
        'The service answers on the network without TLS: PINs and records can be read on the way. Put a proxy with a certificate in front, and set TRUST_PROXY.',
      ),
    );
  return found;
}

function aboutBackups({ state, newest }: BackupState): readonly Finding[] {
  switch (state) {
    case 'recent':
      return [];
    case 'not-set-up':
      return [toKnow('No backups are taken. npm run records -- backup-key, then set BACKUP_DIR and BACKUP_TO: one is taken a day.')];
    case 'overdue':
      return [
        wrong(
          `The newest backup is of ${newest ?? 'an unknown moment'}: more than a day and a half ago. The log says why the later ones failed.`,
        ),
      ];
    default:
      return [wrong('There is no backup in BACKUP_DIR, or the folder cannot be read. The log says why.')];
  }
}

const fileDays = 2;

function aboutLeaving({ sealsFolder, witnesses }: ServiceFacts): readonly Finding[] {
  if (sealsFolder === null)
    return witnesses > 0
      ? []
      : [
          toKnow(
            'No seal leaves the house by itself: until somebody outside has one, the records could be rewritten unseen. ' +
              'Set SEALS_DIR to a folder from which each day’s file is mailed or printed, or WITNESSES to those who cosign.',
          ),
        ];
  const { folder, newest, today } = sealsFolder;
  if (newest !== null && (Date.parse(today) - Date.parse(newest)) / dayMs < fileDays) return [];
  const since =
    newest === null ? `There is no file of seals in ${folder}` : `No file of seals was written into ${folder} since that of ${newest}`;
  return [wrong(`${since}: the service’s log says why. It must run, and may write there; npm run records -- seal writes one now.`)];
}
