import type { ReactNode } from 'react';
import { useLocation } from 'wouter';
import { Screen, useMayGo } from '../ui';

interface Props {
  readonly back: { readonly to: string; readonly text: string };
  readonly children: ReactNode;
}

/** The pages below, but for those on which nothing is to be done by the person who opened their address. */
export function ForThose({ back, children }: Props) {
  const [location] = useLocation();
  return useMayGo(location) ? (
    children
  ) : (
    <Screen key={location} title="This is for others" back={back}>
      <NotOffered at={location} />
    </Screen>
  );
}

/** The screen around it says who may. */
function NotOffered({ at }: { readonly at: string }) {
  return useMayGo(at) ? null : <p>Nothing was recorded. Ask one of them, or have an administrator give you the role.</p>;
}
