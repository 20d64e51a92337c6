import type { Reply } from '@bakehouse/api-client';
import { useEffect, useState } from 'react';
import { file } from './file';
import { photosHere } from './photos';
import { useWho } from './who';

type Found = { readonly address: string; readonly here: boolean } | { readonly says: string };

/** A photo that a delivery names: from the service, or from this tablet where it is not sent yet. */
export function DeliveryPhoto({ photo, site }: { readonly photo: string; readonly site: string }) {
  const { askPatiently } = useWho();
  const [found, setFound] = useState<Found>();
  useEffect(() => {
    let address: string | undefined;
    let gone = false;
    const show = (blob: Blob, here: boolean): void => {
      if (gone) return;
      address = URL.createObjectURL(blob);
      setFound({ address, here });
    };
    const load = async (): Promise<void> => {
      const own = await photosHere().then((photos) => photos.get(photo));
      if (own) return show(new Blob([Uint8Array.from(own.bytes)], { type: own.mediaType }), true);
      const reply = await askPatiently('get', '/sites/{site}/photos/{sha256}', file, {
        params: { path: { site, sha256: photo } },
        parseAs: 'blob',
      });
      if (reply.as === 'ok') show(reply.value, false);
      else if (!gone) setFound({ says: missing(reply) });
    };
    void load();
    return () => {
      gone = true;
      if (address !== undefined) URL.revokeObjectURL(address);
    };
  }, [photo, askPatiently, site]);
  if (found === undefined) return null;
  if ('says' in found)
    return (
      <p className="hint" role="status">
        {found.says}
      </p>
    );
  return (
    <figure className="photo-shown">
      <a href={found.address} target="_blank" rel="noreferrer" aria-label="The photo, larger">
        <img src={found.address} alt="Photo of the delivery" />
      </a>
      {found.here ? <figcaption>photo not sent yet</figcaption> : null}
    </figure>
  );
}

/** A photo that never came is told apart from one that cannot be fetched just now. */
function missing(reply: Exclude<Reply<Blob>, { as: 'ok' }>): string {
  if (reply.as === 'unreachable') return 'Its photo can be seen when the network is back.';
  if (reply.problem.problem === 'unknown-photo') return 'Its photo has not come here yet: the tablet that took it must be connected once.';
  return `Its photo cannot be shown. ${reply.problem.detail}`;
}
