import type { ReactNode } from 'react';
import { Route, Switch } from 'wouter';
import { Deliveries } from './deliveries';
import { NewDelivery } from './new-delivery';
import { Unattended } from './unattended';

interface Props {
  /** Where these pages are: at the table or in the office. */
  readonly home: string;
  readonly back: { readonly to: string; readonly text: string };
  /** The list of what came, where it is another than the tablet’s. */
  readonly list?: ReactNode;
}

/** Goods in: what came, and how it is recorded, with somebody there or without. */
export function GoodsIn({ home, back, list }: Props) {
  const [delivery, unattended] = [`${home}/new`, `${home}/unattended`];
  return (
    <Switch>
      <Route path={delivery}>
        <NewDelivery home={home} />
      </Route>
      <Route path={unattended}>
        <Unattended home={home} />
      </Route>
      <Route>{list ?? <Deliveries delivery={delivery} unattended={unattended} back={back} />}</Route>
    </Switch>
  );
}
