import { lazy, Suspense, type ComponentType } from 'react';

/** A screen that the first one does not need: it comes when it is opened. The device keeps it with the rest, for when there is no network. */
export function later<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  const Screen = lazy(() => load().then((screen) => ({ default: screen })));
  return function Later(props: P) {
    return (
      <Suspense fallback={null}>
        <Screen {...props} />
      </Suspense>
    );
  };
}
