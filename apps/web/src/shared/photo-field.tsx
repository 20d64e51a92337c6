import { useRef, useState } from 'react';
import { DeliveryPhoto } from './delivery-photo';
import { takePhoto } from './photos';
import { useTabletState } from './tablet-context';
import { Button, Notice } from '../ui';

interface Props {
  readonly label: string;
  readonly value: string | null;
  readonly onChange: (photo: string | null) => void;
}

/** A photo of the note or of what came: by the camera or from a file. It stays on the tablet until the network is there. */
export function PhotoField({ label, value, onChange }: Props) {
  const input = useRef<HTMLInputElement>(null);
  const { site } = useTabletState();
  const [failed, setFailed] = useState(false);
  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    setFailed(false);
    try {
      onChange(await takePhoto(file, site.id));
    } catch {
      setFailed(true);
    }
  };
  return (
    <div className="field photo">
      <Button onClick={() => input.current?.click()}>{value === null ? label : 'Take another photo'}</Button>
      <input ref={input} hidden type="file" accept="image/*" capture="environment" onChange={(e) => void take(e.target.files?.[0])} />
      {failed ? (
        <Notice tone="bad" title="This picture cannot be read">
          <p>Take it again, or choose a JPEG or PNG picture. The delivery can be recorded without one.</p>
        </Notice>
      ) : null}
      {value === null ? null : <DeliveryPhoto photo={value} site={site.id} />}
    </div>
  );
}
