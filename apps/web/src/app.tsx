import { Suspense } from 'react';
import { Redirect, Route, Switch } from 'wouter';
import { shells } from './shells';

/** Which shell an address belongs to. A new shell is one line in shells/index.ts. */
export function App() {
  return (
    <Suspense
      fallback={
        <p className="loading" role="status">
          One moment…
        </p>
      }
    >
      <Switch>
        {shells.map(({ at, Shell }) => (
          <Route key={at} path={new RegExp(`^${at}(?:/.*)?$`)}>
            <Shell />
          </Route>
        ))}
        <Route>
          <Redirect to="/table" replace />
        </Route>
      </Switch>
    </Suspense>
  );
}
