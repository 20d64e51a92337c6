import { Route, Switch } from 'wouter';
import { office } from '../../shared/office-paths';
import { MaterialsFromSheet, PartiesFromSheet } from './from-sheet';
import { SetupPage } from './setup-page';
import { Starters } from './starters';

/** The guide, the starters and what comes from a sheet. */
export function SetUp() {
  return (
    <Switch>
      <Route path={office.starters}>
        <Starters />
      </Route>
      <Route path={office.materialsSheet}>
        <MaterialsFromSheet />
      </Route>
      <Route path={office.partiesSheet}>
        <PartiesFromSheet />
      </Route>
      <Route>
        <SetupPage />
      </Route>
    </Switch>
  );
}
