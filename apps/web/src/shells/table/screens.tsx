import { Redirect, Route, Switch } from 'wouter';
import { Batch } from '../../features/night/batch';
import { CountOut } from '../../features/night/count-out';
import { Load } from '../../features/night/load';
import { LoadNew } from '../../features/night/load-new';
import { Make } from '../../features/night/make';
import { MakeUp } from '../../features/night/make-up';
import { Mixed } from '../../features/night/mixed';
import { OpenLots } from '../../features/night/open-lots';
import { paths } from '../../shared/night/paths';
import { Reading } from '../../features/night/reading';
import { Recent } from '../../features/night/recent';
import { Run } from '../../features/night/run';
import { Start, StartOne } from '../../features/night/start';
import { Weigh } from '../../features/night/weigh';
import { ForThose } from '../../shared/to-look-at';
import { Move } from '../../features/out/move';
import { Out } from '../../features/out/out';
import {
  CleanDown,
  Correct,
  CounterPage,
  CountLot,
  DaySheet,
  Deviation,
  DeviationReport,
  GoodsIn,
  HoldPlace,
  ProbeCheck,
  Returned,
  Send,
  StockPage,
  Vessels,
} from './later';

/** Every screen of the night but the first, by its address; each begins anew when it is about something else. */
export function NightScreens() {
  return (
    <ForThose back={{ to: paths.today, text: 'Today’s bake' }}>
      <Switch>
        <Route path={paths.start}>
          <Start />
        </Route>
        <Route path="/table/start/:formula">{({ formula }) => <StartOne key={formula} formula={formula} />}</Route>
        <Route path="/table/make/:id">{({ id }) => <Make key={id} id={id} />}</Route>
        <Route path="/table/make/:id/weigh">{({ id }) => <Weigh key={id} id={id} />}</Route>
        <Route path="/table/make/:id/mixed">{({ id }) => <Mixed key={id} id={id} />}</Route>
        <Route path="/table/make/:id/make-up">{({ id }) => <MakeUp key={id} id={id} />}</Route>
        <Route path="/table/run/:id">{({ id }) => <Run key={id} id={id} />}</Route>
        <Route path="/table/run/:id/count">{({ id }) => <CountOut key={id} id={id} />}</Route>
        <Route path={paths.loadNew}>
          <LoadNew />
        </Route>
        <Route path="/table/load/:id">{({ id }) => <Load key={id} id={id} />}</Route>
        <Route path="/table/batch/:id">{({ id }) => <Batch key={id} id={id} />}</Route>
        <Route path="/table/read/:type/:subject/:point">{(p) => <Reading key={`${p.subject} ${p.point}`} {...p} />}</Route>
        <Route path={paths.open}>
          <OpenLots />
        </Route>
        <Route path={`${paths.goods}/*?`}>
          <GoodsIn home={paths.goods} back={{ to: paths.today, text: 'Today’s bake' }} />
        </Route>
        <Route path="/table/report/:type/:subject">{(p) => <DeviationReport key={p.subject} {...p} />}</Route>
        <Route path="/table/deviation/:id">{({ id }) => <Deviation key={id} id={id} />}</Route>
        <Route path={paths.recent}>
          <Recent />
        </Route>
        <Route path="/table/recent/:id">{({ id }) => <Correct key={id} id={id} />}</Route>
        <Route path={paths.out}>
          <Out />
        </Route>
        <Route path="/table/out/send/:channel">{({ channel }) => <Send key={channel} channel={channel} />}</Route>
        <Route path={paths.returned}>
          <Returned />
        </Route>
        <Route path={paths.counter}>
          <CounterPage />
        </Route>
        <Route path="/table/out/count/:id">{({ id }) => <CountLot key={id} id={id} />}</Route>
        <Route path={paths.stock}>
          <StockPage />
        </Route>
        <Route path={paths.move}>
          <Move />
        </Route>
        <Route path={paths.vessel}>
          <Vessels />
        </Route>
        <Route path={paths.cleanDown}>
          <CleanDown />
        </Route>
        <Route path="/table/hold-place/:place?">{({ place }) => <HoldPlace key={place} preset={place ?? null} />}</Route>
        <Route path={paths.probeCheck}>
          <ProbeCheck />
        </Route>
        <Route path={paths.sheet}>
          <DaySheet />
        </Route>
        <Route>
          <Redirect to={paths.today} replace />
        </Route>
      </Switch>
    </ForThose>
  );
}
