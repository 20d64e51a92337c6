import { useState, type KeyboardEvent } from 'react';
import { systemClock } from '@bakehouse/offline';
import type { DeliveryLine } from './delivery-line';
import { Button, Field, Notice } from '../ui';

interface Read {
  readonly errors: readonly { readonly says: string }[];
  readonly fields: {
    readonly gtin: string | null;
    readonly lot: string | null;
    readonly bestBefore: string | null;
    readonly useBy: string | null;
    readonly netMassGrams: number | null;
    readonly count: number | null;
  };
}
const nothing: Read = {
  errors: [{ says: 'nothing could be read from it' }],
  fields: { gtin: null, lot: null, bestBefore: null, useBy: null, netMassGrams: null, count: null },
};

/** Reads the code on a case, scanned or typed with its brackets, on the device itself: the lot, the dates and the weight fill the form. */
export function Scan({ onRead }: { readonly onRead: (read: Partial<DeliveryLine>) => void }) {
  const [text, setText] = useState('');
  const [found, setFound] = useState<Read>();
  const read = async (): Promise<void> => {
    const { gs1Parse } = await import('@bakehouse/standards'); // large tables: fetched when somebody scans
    const said = gs1Parse.calculate({ text: text.trim(), asOfYear: systemClock.now().getUTCFullYear() });
    const answer: Read = said.ok ? said.value : nothing;
    setFound(answer);
    onRead(lineFrom(answer));
    if (answer.errors.length === 0) setText((now) => (now === text ? '' : now)); // the next scan starts afresh
  };
  return (
    <details>
      <summary>Scan or type the code on the case</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          event.stopPropagation();
          event.currentTarget.querySelector('input')?.select(); // what could not be read can be mended, and the next scan takes its place
          void read();
        }}
        onKeyDown={(event) => {
          if (!isSeparator(event)) return;
          event.preventDefault();
          const { target } = event;
          if (target instanceof HTMLInputElement) setText(withSeparator(target));
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
      {found === undefined ? null : found.errors.length > 0 ? (
        <Notice tone="ask" title="Not everything in it can be taken">
          <ul>
            {found.errors.map((p) => (
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

/** A scanner that types gives the separator (ASCII 29) as Control and “]”, of which a browser makes no character. */
const isSeparator = ({ ctrlKey, altKey, key, code }: KeyboardEvent): boolean =>
  key === separator || (ctrlKey && !altKey && (key === ']' || code === 'BracketRight')); // with Alt it is how some keyboards type “]” itself
const separator = '\u001d';

/** What stands in the field with a separator that can be seen, where the next character goes. */
const withSeparator = ({ value, selectionStart, selectionEnd }: HTMLInputElement): string =>
  `${value.slice(0, selectionStart ?? value.length)}\u241d${value.slice(selectionEnd ?? value.length)}`;

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
