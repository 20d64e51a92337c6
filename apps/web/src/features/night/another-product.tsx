import { systemClock, systemIds } from '@bakehouse/offline';
import { useState } from 'react';
import { useNight } from '../../shared/night/use-night';
import { Button, Choice, Empty, Sheet } from '../../ui';
import type { MadeUp } from './make-up';

/** A product that the formula does not name may be made of this dough all the same: its pieces and their weight are typed. */
export function AnotherProduct({ made, onChange }: { readonly made: MadeUp; readonly onChange: (made: MadeUp) => void }) {
  const { snapshot } = useNight().state;
  const [open, setOpen] = useState(false);
  const there = new Set(made.runs.map((r) => r.product));
  const products = new Map(
    snapshot.specification.filter((s) => s.type === 'product' && !there.has(s.material)).map((s) => [s.material, s.name]),
  );
  const add = (product: string): void => {
    const run = { run: systemIds.entry(systemClock.now()), product, name: products.get(product) ?? '', heads: '', pieces: '', scaling: '' };
    onChange({ ...made, runs: [...made.runs, run] });
    setOpen(false);
  };
  return (
    <div className="buttons">
      <Button look="quiet" onClick={() => setOpen(true)}>
        Another product
      </Button>
      {open ? (
        <Sheet title="Which product?" onClose={() => setOpen(false)}>
          {products.size === 0 ? (
            <Empty>Every product that is set up stands there already. Another one is set up in the office, under Catalogue.</Empty>
          ) : (
            <Choice
              label="Products that this formula does not name"
              value={null}
              onChange={add}
              options={[...products].sort((a, b) => a[1].localeCompare(b[1])).map(([value, text]) => ({ value, text }))}
            />
          )}
        </Sheet>
      ) : null}
    </div>
  );
}
