import { useEffect, useState } from 'react';
import { fileFrom } from './file-from';
import { photosHere } from './photos';
import { useTabletState } from './tablet-context';
import { useWho } from './who';

type Found = { readonly address: string; readonly here: boolean } | 'none' | undefined;

/** A photo that a delivery names: from the service, or from this tablet where it is not sent yet. */
export function DeliveryPhoto({ photo }: { readonly photo: string }) {
  const { site } = useTabletState();
  const { run } = useWho();
  const [found, setFound] = useState<Found>();
  useEffect(() => {
    let address: string | undefined;
    let gone = false;
    const show = (blob: Blob, here: boolean): void => {
      if (gone) return;
      address = URL.createObjectURL(blob);
      setFound({ address, here });
    };
    const look = async (): Promise<void> => {
      const own = await photosHere().then((photos) => photos.get(photo));
      if (own) return show(new Blob([Uint8Array.from(own.bytes)], { type: own.mediaType }), true);
      const reply = await run((token) => fileFrom(`/sites/${site.id}/photos/${photo}`, token));
      if (reply.as === 'ok') show(reply.value, false);
      else if (!gone) setFound('none');
    };
    void look();
    return () => {
      gone = true;
      if (address !== undefined) URL.revokeObjectURL(address);
    };
  }, [photo, run, site.id]);
  if (found === undefined) return null;
  if (found === 'none') return <p className="hint">Its photo has not come here yet: the tablet that took it must be connected once.</p>;
  return (
    <figure className="photo-shown">
      <a href={found.address} target="_blank" rel="noreferrer" aria-label="The photo, larger">
        <img src={found.address} alt="Photo of the delivery" />
      </a>
      {found.here ? <figcaption>not sent yet</figcaption> : null}
    </figure>
  );
}
