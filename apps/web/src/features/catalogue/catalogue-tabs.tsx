import { office } from '../../shared/office-paths';
import { LinkButton } from '../../ui';

const lists = [
  [office.materials, 'Materials'],
  [office.parties, 'Suppliers and customers'],
  [office.places, 'Places and probes'],
] as const;

/** The other lists of the house: the title says which one this is. */
export function CatalogueTabs({ here }: { readonly here: string }) {
  return (
    <nav className="buttons" aria-label="Other lists">
      {lists
        .filter(([to]) => to !== here)
        .map(([to, text]) => (
          <LinkButton key={to} to={to}>
            {text}
          </LinkButton>
        ))}
    </nav>
  );
}
