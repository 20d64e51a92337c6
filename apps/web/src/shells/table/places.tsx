import { useEffect, useRef } from 'react';
import { Link } from 'wouter';
import { Icon, useMayGo } from '../../ui';
import { NightSwitch } from './night-switch';

type Place = readonly [to: string, text: string];
interface Props {
  readonly of: readonly Place[];
  /** What is wanted less often, behind one key. */
  readonly more?: readonly Place[];
  readonly here: string;
  /** Where there is no room for a line of them, all of them are behind that key. */
  readonly folds?: boolean;
}

/** The ways in: in the line on top, or at the foot of a tablet that stands on end, by the thumb. */
export function Places({ of, more, here, folds = false }: Props) {
  return (
    <nav className={folds ? 'places folds' : 'places'} aria-label="Places">
      <Ways of={of} here={here} />
      {more === undefined ? null : <More here={here} of={more} first={folds ? of : []} />}
    </nav>
  );
}

const Ways = ({ of, here, look }: Pick<Props, 'of' | 'here'> & { readonly look?: string }) =>
  of.map(([to, text]) => <Way key={to} to={to} text={text} here={here} look={look} />);

interface WayProps {
  readonly to: string;
  readonly text: string;
  readonly here: string;
  readonly look: string | undefined;
}

/** A way in, for those who may do something there or look at it. */
const Way = ({ to, text, here, look }: WayProps) =>
  useMayGo(to) ? (
    <Link href={to} className={look} aria-current={to === here ? 'page' : undefined}>
      {text}
    </Link>
  ) : null;

function More({ of, first, here }: Pick<Props, 'of' | 'here'> & { readonly first: readonly Place[] }) {
  const folded = useRef<HTMLDetailsElement>(null);
  const close = (): void => {
    if (folded.current) folded.current.open = false;
  };
  useEffect(close, [here]);
  useEffect(() => {
    const outside = (event: Event): void => {
      if (!(event.target instanceof Node && folded.current?.contains(event.target))) close();
    };
    const escape = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') close();
    };
    document.addEventListener('pointerdown', outside);
    document.addEventListener('keydown', escape);
    return () => {
      document.removeEventListener('pointerdown', outside);
      document.removeEventListener('keydown', escape);
    };
  }, []);
  return (
    <details className="more" ref={folded}>
      <summary aria-current={of.some(([to]) => to === here) ? 'true' : undefined}>
        <Icon name="more" /> {first.length === 0 ? 'More' : <MoreOrMenu />}
      </summary>
      <div className="more-list" onClick={close}>
        <Ways of={first} here={here} look="folded" />
        <Ways of={of} here={here} />
        <NightSwitch />
      </div>
    </details>
  );
}

const MoreOrMenu = () => (
  <>
    <span className="unfolded">More</span>
    <span className="folded">Menu</span>
  </>
);
