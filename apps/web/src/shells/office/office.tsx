import { Route, Switch, useLocation } from 'wouter';
import { Catalogue } from '../../features/catalogue/catalogue';
import { Draft } from '../../features/formulas/draft';
import { Drafts } from '../../features/formulas/drafts';
import { DeliveryDesk } from '../../features/goods-in/delivery-desk';
import { GoodsIn } from '../../features/goods-in/goods-in';
import { Formulas } from '../../features/formulas/formulas';
import { People } from '../../features/house/people';
import { SitePage } from '../../features/house/site-page';
import { Plan, PlanDrafts } from '../../features/plans/plan';
import { PlanDraft } from '../../features/plans/plan-draft';
import { StockDesk } from '../../features/out/stock-desk';
import { Officer } from '../../features/inspection/officer';
import { SetUp } from '../../features/setup/setup';
import { FoundLots } from '../../features/trace/found';
import { SearchBox } from '../../features/trace/search-box';
import { Lot, LotFrom } from '../../features/trace/lot';
import { NewRecall } from '../../features/recall/new-recall';
import { RecallCase } from '../../features/recall/recall-case';
import { Recalls } from '../../features/recall/recalls';
import { office } from '../../shared/office-paths';
import { later } from '../../ui/later';
import { ForThose } from '../../shared/to-look-at';
import { useTabletState } from '../../shared/tablet-context';
import { AtDevice } from '../sign-on/at-device';
import { AtTheirSite } from '../sign-on/at-site';
import { Always } from '../table/always';
import { Places } from '../table/places';
import { Damage, Strip } from '../table/strip';
import { AtDesk, Bake } from './at-desk';
import { Home } from './home';

const Readings = later(() => import('../../features/readings/readings').then((m) => m.Readings));
const Course = later(() => import('../../features/readings/course').then((m) => m.Course));

const places = [
  [office.home, 'Overview'],
  [office.goods, 'Goods in'],
  [office.stock, 'Stock'],
  [office.recalls, 'Recalls'],
  [office.readings, 'Readings'],
  [office.formulas, 'Formulas'],
  [office.plan, 'Plan'],
  [office.materials, 'Catalogue'],
  [office.people, 'People'],
] as const;
const more = [
  [office.bake, 'Today’s bake'],
  [office.site, 'This site'],
  [office.officer, 'Officer'],
  [office.setup, 'Set-up'],
] as const;
/** Leaves the office, and says so. */
const away = [['/', 'Leave for the table']] as const;

/** The pages for a table with a chair: find a lot, answer a recall, take goods in, see what is open. */
export function Office() {
  return (
    <AtDevice>
      {(at) => (
        <AtTheirSite {...at}>
          <AtDesk>
            <Pages />
          </AtDesk>
        </AtTheirSite>
      )}
    </AtDevice>
  );
}

function Pages() {
  const [location] = useLocation();
  const here = [...places, ...more].find(([to]) => to !== office.home && location.startsWith(to))?.[0] ?? office.home;
  return (
    <div className="office-shell">
      <Always>
        <Strip>
          <SearchBox />
          <Places of={places} more={[...more, ...away]} here={here} folds />
        </Strip>
        <Damage />
      </Always>
      <ForThose back={{ to: office.home, text: 'Office' }}>
        <Switch>
          <Route path="/office/find/:words">{({ words }) => <FoundLots key={words} words={decodeURIComponent(words)} />}</Route>
          <Route path="/office/lot/:id">{({ id }) => <Lot key={id} id={id} />}</Route>
          <Route path="/office/lot/:id/from">{({ id }) => <LotFrom key={id} id={id} />}</Route>
          <Route path={`${office.goods}/*?`}>
            <GoodsIn home={office.goods} back={{ to: office.home, text: 'Office' }} list={<DeliveryDesk />} />
          </Route>
          <Route path={office.recalls}>
            <Recalls />
          </Route>
          <Route path="/office/recalls/new/:lot/:hazard?">{(p) => <NewRecall key={p.lot} lot={p.lot} hazard={p.hazard} />}</Route>
          <Route path="/office/recalls/:id">{({ id }) => <RecallCase key={id} id={id} />}</Route>
          <Route path={office.stock}>
            <StockDesk />
          </Route>
          <Route path={`${office.readings}/*?`}>
            <ReadingPages />
          </Route>
          <Route path="/office/formulas/:id?">{({ id }) => <Formulas opened={id} />}</Route>
          <Route path={office.drafts}>
            <Drafts />
          </Route>
          <Route path="/office/drafts/:id">{({ id }) => <Draft key={id} id={id} />}</Route>
          <Route path={office.catalogue}>
            <Catalogue />
          </Route>
          <Route path="/office/people/:id?">{({ id }) => <People opened={id} />}</Route>
          <Route path={office.site}>
            <SitePage />
          </Route>
          <Route path={office.planDrafts}>
            <PlanDrafts />
          </Route>
          <Route path="/office/plan/draft/:id">{({ id }) => <PlanDraft key={id} id={id} />}</Route>
          <Route path={`${office.plan}/*?`}>
            <Plan />
          </Route>
          <Route path={`${office.bake}/*?`}>
            <Bake />
          </Route>
          <Route path={`${office.setup}/*?`}>
            <SetUp />
          </Route>
          <Route path={office.officer}>
            <ForOfficer />
          </Route>
          <Route>
            <Home />
          </Route>
        </Switch>
      </ForThose>
    </div>
  );
}

function ReadingPages() {
  return (
    <Switch>
      <Route path={office.readings}>
        <Readings by="place" />
      </Route>
      <Route path="/office/readings/:by/:of/:measured/:parameter/:point?">
        {({ parameter, point, ...p }) => (
          <Course
            key={`${p.of} ${p.measured} ${parameter} ${point ?? ''}`}
            {...p}
            parameter={decodeURIComponent(parameter)}
            point={point === undefined ? null : decodeURIComponent(point)}
          />
        )}
      </Route>
    </Switch>
  );
}

function ForOfficer() {
  const { site } = useTabletState();
  return <Officer site={site} back={{ to: office.home, text: 'Office' }} />;
}
