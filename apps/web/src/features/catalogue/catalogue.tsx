import { Route, Switch } from 'wouter';
import { office } from '../../shared/office-paths';
import { Materials } from './materials';
import { NewMaterial } from './new-material';
import { Parties } from './parties';
import { Places } from './places';

/** The lists of the house: materials, whom they come from and go to, places and what is measured with. */
export function Catalogue() {
  return (
    <Switch>
      <Route path={office.materialNew}>
        <NewMaterial />
      </Route>
      <Route path="/office/catalogue/parties/:id?">{({ id }) => <Parties opened={id} />}</Route>
      <Route path="/office/catalogue/places/:id?">{({ id }) => <Places opened={id} />}</Route>
      <Route>
        <Materials />
      </Route>
    </Switch>
  );
}
