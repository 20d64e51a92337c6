import { askingIfChanged, inNameOf } from '@bakehouse/api-client';
import {
  httpDoor,
  Kept,
  nightAnswer,
  openDatabase,
  Outbox,
  systemClock,
  systemIds,
  systemTimer,
  Tablet,
  type NightHeld,
  type NightSite,
} from '@bakehouse/offline';
import * as z from 'zod';
import { People } from './people';

/** What the page was opened with, before any page of ours goes on to another. */
const openedWith = location.search;

/** The device's own store and what is opened on it. */
export interface Device {
  readonly outbox: Outbox;
  readonly kept: Kept;
  readonly people: People;
}

/** @throws where this browser keeps nothing for this page: the caller must say so */
export async function openDevice(): Promise<Device> {
  const database = await openDatabase('bakehouse');
  const [outbox, kept] = [new Outbox(database), new Kept(database)];
  void navigator.storage?.persist?.(); // asks not to be cleared when the disk runs full; the answer changes nothing here
  return { outbox, kept, people: new People(kept, houseIn(openedWith)) };
}

/** The tablet at a site, as the person signed on sees it. `who` is asked anew for each request: another name may have been tapped since. */
export function openTablet({ outbox, kept, people }: Device, site: NightSite, day: string, who: () => string): Promise<Tablet> {
  const door = httpDoor(people);
  const night = async (id: string, asked: string, held: NightHeld | null) => {
    const ask = askingIfChanged({ as: inNameOf(people, who()) });
    const query = { day: asked, ...(held?.version ? { since: held.version } : {}) };
    const reply = await ask(held?.tag ?? null, '/sites/{site}/night', nightAnswer, { params: { path: { site: id }, query } });
    return reply.as === 'ok' ? reply.value : undefined;
  };
  return Tablet.open(
    { outbox, kept, door, night, clock: systemClock, ids: systemIds, timer: systemTimer, device: people.known?.device?.id ?? null },
    site,
    day,
  );
}

/** A house's own address names it: `?house=` and its id. */
function houseIn(search: string): string | null {
  return z.uuid().safeParse(new URLSearchParams(search).get('house')).data ?? null;
}
