import { Route, Switch } from 'wouter';
import { office } from '../../shared/office-paths';
import { Material } from './material';
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
      <Route path="/office/catalogue/material/:id">{({ id }) => <Material key={id} id={id} />}</Route>
      <Route path={office.parties}>
        <Parties />
      </Route>
      <Route path={office.places}>
        <Places />
      </Route>
      <Route>
        <Materials />
      </Route>
    </Switch>
  );
}
