import { Route, Switch } from 'wouter';
import { Counter } from '../../features/counter/counter';

/** The counter's page: no sign-on, nothing but today's products and what is in them. */
export function CounterPage() {
  return (
    <Switch>
      <Route path="/counter/:site">{({ site }) => <Counter key={site} site={site} />}</Route>
      <Route>
        <Counter site={undefined} />
      </Route>
    </Switch>
  );
}
