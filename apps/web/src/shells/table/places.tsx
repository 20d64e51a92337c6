import { useEffect, useRef } from 'react';
import { Link } from 'wouter';
import { Icon } from '../../ui';
import { NightSwitch } from './night-switch';

type Place = readonly [to: string, text: string];
interface Props {
  readonly of: readonly Place[];
  /** What is wanted less often, behind one key. */
  readonly more?: readonly Place[];
  readonly here: string;
  /** What that key is called. */
  readonly word?: string;
}

/** The ways in: in the line on top, or at the foot of a tablet that stands on end, by the thumb. */
export function Places({ of, more, here, word = 'More' }: Props) {
  return (
    <nav className="places" aria-label="Places">
      <Ways of={of} here={here} />
      {more === undefined ? null : <More here={here} of={more} word={word} />}
    </nav>
  );
}

const Ways = ({ of, here }: Pick<Props, 'of' | 'here'>) =>
  of.map(([to, text]) => (
    <Link key={to} href={to} aria-current={to === here ? 'page' : undefined}>
      {text}
    </Link>
  ));

function More({ of, here, word }: { readonly of: readonly Place[]; readonly here: string; readonly word: string }) {
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
        <Icon name="more" /> {word}
      </summary>
      <div className="more-list" onClick={close}>
        <Ways of={of} here={here} />
        <NightSwitch />
      </div>
    </details>
  );
}
