import { Route, Switch } from 'wouter';
import { paths } from '../../shared/night/paths';
import { Today } from '../../features/night/today';
import {
  Batch,
  CleanDown,
  Correct,
  CounterPage,
  CountLot,
  CountOut,
  DaySheet,
  Deviation,
  DeviationReport,
  GoodsIn,
  Load,
  LoadNew,
  Make,
  MakeUp,
  Mixed,
  Move,
  OpenLots,
  Out,
  ProbeCheck,
  Reading,
  Recent,
  Returned,
  Run,
  Send,
  Start,
  StartOne,
  StockPage,
  Vessels,
  Weigh,
} from './later';

/** Every screen of the night by its address; each begins anew when it is about something else. */
export function NightScreens() {
  return (
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
      <Route path={paths.probeCheck}>
        <ProbeCheck />
      </Route>
      <Route path={paths.sheet}>
        <DaySheet />
      </Route>
      <Route>
        <Today />
      </Route>
    </Switch>
  );
}
