import { Field } from '../../ui';
import type { StallSaid } from './stall-and-shop';

interface Props {
  readonly said: StallSaid;
  readonly onChange: (said: StallSaid) => void;
}

/** Where the stall stands, in words, and until when it sells. */
export function StallFields({ said, onChange }: Props) {
  return (
    <>
      <Field label="Where does it stand?" value={said.place} onChange={(place) => onChange({ ...said, place })} maxLength={120} />
      <Field label="Until what time does it sell?" type="time" value={said.until} onChange={(until) => onChange({ ...said, until })} />
    </>
  );
}
