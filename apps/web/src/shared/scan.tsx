import { useState } from 'react';
import * as z from 'zod';
import { systemClock } from '@bakehouse/offline';
import type { DeliveryLine } from './delivery-line';
import { Button, Field, Notice } from './ui';

const answer = z.object({
  problems: z.array(z.object({ says: z.string() })),
  fields: z.object({
    gtin: z.string().nullable(),
    lot: z.string().nullable(),
    bestBefore: z.string().nullable(),
    useBy: z.string().nullable(),
    netMassGrams: z.number().nullable(),
    count: z.number().nullable(),
  }),
});
type Read = z.infer<typeof answer>;

/** Reads the code on a case, scanned or typed with its brackets, on the device itself: the lot, the dates and the weight fill the form. */
export function Scan({ onRead }: { readonly onRead: (read: Partial<DeliveryLine>) => void }) {
  const [text, setText] = useState('');
  const [found, setFound] = useState<Read>();
  const read = async (): Promise<void> => {
    const { gs1Parse } = await import('@bakehouse/standards'); // large tables: fetched when somebody scans
    const said = gs1Parse.calculate({ text: text.trim(), asOfYear: systemClock.now().getUTCFullYear() });
    const { data } = answer.safeParse(said.ok ? said.value : undefined);
    const nothing = {
      problems: [{ says: 'nothing could be read from it' }],
      fields: { gtin: null, lot: null, bestBefore: null, useBy: null, netMassGrams: null, count: null },
    };
    setFound(data ?? nothing);
    if (data) onRead(lineFrom(data));
  };
  return (
    <details>
      <summary>Scan or type the code on the case</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          event.stopPropagation();
          void read();
        }}
      >
        <Field
          label="The code, as scanned or with its brackets"
          value={text}
          onChange={setText}
          hint="Such as (01)05412345000013(15)270300(3103)012500(10)A77"
          maxLength={2000}
        />
        <Button submit disabled={text.trim() === ''}>
          Fill the form from it
        </Button>
      </form>
      {found === undefined ? null : found.problems.length > 0 ? (
        <Notice tone="ask" title="Not everything in it can be taken">
          <ul>
            {found.problems.map((p) => (
              <li key={p.says}>{p.says}</li>
            ))}
          </ul>
          <p>Compare with the label and type the rest.</p>
        </Notice>
      ) : (
        <Notice tone="good" title="Read. Compare it with the label">
          {found.fields.gtin === null ? null : <p>Item {found.fields.gtin}</p>}
        </Notice>
      )}
    </details>
  );
}

function lineFrom({ fields: { lot, bestBefore, useBy, netMassGrams, count } }: Read): Partial<DeliveryLine> {
  return {
    ...(lot === null ? {} : { code: lot, codeState: 'on-it' as const }),
    ...(bestBefore === null ? {} : { bestBefore }),
    ...(useBy === null ? {} : { useBy }),
    ...(netMassGrams !== null
      ? { quantity: String(netMassGrams / 1000), unit: 'kg' as const }
      : count !== null
        ? { quantity: String(count), unit: 'piece' as const }
        : {}),
  };
}
