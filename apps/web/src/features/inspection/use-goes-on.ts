import { asking, inNameOf, type Ask } from '@bakehouse/api-client';
import { signedHeads } from '@bakehouse/contracts';
import { Kept, openDatabase, SeenHeads, systemClock, type BrokenHead, type NightSite } from '@bakehouse/offline';
import { useCallback, useEffect, useMemo, useState } from 'react';
import * as z from 'zod';
import { useTabletState } from '../../shared/tablet-context';
import { useWho } from '../../shared/who';

const everyMs = 10 * 60_000;

export interface GoesOnState {
  readonly broken: readonly BrokenHead[];
  readonly goOnFrom: (one: BrokenHead) => Promise<void>;
}

/** Sees now and then that the records of this site go on from those that this device saw; what it knows of it, it knows without a network too. */
export function useGoesOn(): GoesOnState {
  const { site, connected } = useTabletState();
  const { people, person } = useWho();
  const ask = useMemo(() => asking({ as: inNameOf(people, person.id) }), [people, person.id]); // nobody is asked for a PIN because of this
  const [broken, setBroken] = useState<readonly BrokenHead[]>([]);
  const open = useCallback(() => seenHeads(site, ask), [site, ask]);
  useEffect(() => {
    let gone = false;
    const show = (found: Promise<readonly BrokenHead[]>): void =>
      void found.then(
        (all) => {
          if (!gone) setBroken(all);
        },
        () => undefined, // a store that cannot be read is told by the strip
      );
    const heads = open();
    show(heads.then((one) => one.broken()));
    const look = (): void => show(heads.then((one) => one.look()));
    if (connected === true) look();
    const handle = connected === true ? setInterval(look, everyMs) : undefined;
    return () => {
      gone = true;
      clearInterval(handle);
    };
  }, [connected, open]);
  const goOnFrom = async (one: BrokenHead): Promise<void> => {
    const heads = await open();
    await heads.goOnFrom(one);
    setBroken(await heads.broken());
  };
  return { broken, goOnFrom };
}

async function seenHeads({ id, organisation }: NightSite, ask: Ask): Promise<SeenHeads> {
  const kept = new Kept(await openDatabase('bakehouse'));
  const path = { site: id };
  return new SeenHeads(
    {
      kept,
      clock: systemClock,
      heads: async (sizes) => {
        const [site, house] = [sizes.get(id), sizes.get(organisation)];
        const query = { ...(site === undefined ? {} : { site }), ...(house === undefined ? {} : { organisation: house }) };
        const reply = await ask('get', '/sites/{site}/signed-heads', signedHeads, { params: { path, query } });
        return reply.as === 'ok' ? reply.value.heads : undefined;
      },
      tell: async ({ book, why, seen, now }) => {
        const body = { book, why, seen, now };
        return (await ask('post', '/sites/{site}/signed-heads/differ', z.null(), { params: { path }, body })).as === 'ok';
      },
    },
    [id, organisation],
  );
}
