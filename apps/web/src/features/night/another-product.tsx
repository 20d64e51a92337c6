import { useState } from 'react';
import { useNight } from '../../shared/night/use-night';
import { Button, Choice, Empty, Sheet } from '../../ui';

interface Props {
  /** Products that stand there already. */
  readonly there: readonly string[];
  readonly onAdd: (product: string, name: string) => void;
}

/** A product that the formula does not name may be made of this dough all the same: its pieces and their weight are typed. */
export function AnotherProduct({ there, onAdd }: Props) {
  const { snapshot } = useNight().state;
  const [open, setOpen] = useState(false);
  const products = new Map(
    snapshot.specification.filter((s) => s.type === 'product' && !there.includes(s.material)).map((s) => [s.material, s.name]),
  );
  const add = (product: string): void => {
    onAdd(product, products.get(product) ?? '');
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
