import { Route, Switch } from 'wouter';
import { Batch } from './batch';
import { CountOut } from './count-out';
import { Deviation } from './deviation';
import { Load } from './load';
import { LoadNew } from './load-new';
import { Make } from './make';
import { MakeUp } from './make-up';
import { Mixed } from './mixed';
import { OpenHere } from './open-here';
import { paths } from './paths';
import { Porch } from './porch';
import { PutRight } from './put-right';
import { Reading } from './reading';
import { Recent } from './recent';
import { Run } from './run';
import { DaySheet } from './sheet';
import { Start, StartOne } from './start';
import { Today } from './today';
import { Weigh } from './weigh';
import { Wrong } from './wrong';
import { CleanDown } from '../checks/clean-down';
import { ProbeCheck } from '../checks/probe-check';
import { Vessels } from '../checks/vessel';
import { CameBack } from '../out/came-back';
import { CountLot } from '../out/count-lot';
import { CounterPage } from '../out/counter';
import { Move } from '../out/move';
import { Out } from '../out/out';
import { Send } from '../out/send';
import { StockPage } from '../out/stock';

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
      <Route path="/table/read/:sort/:subject/:point">{(p) => <Reading key={`${p.subject} ${p.point}`} {...p} />}</Route>
      <Route path={paths.open}>
        <OpenHere />
      </Route>
      <Route path={paths.porch}>
        <Porch />
      </Route>
      <Route path="/table/wrong/:sort/:subject">{(p) => <Wrong key={p.subject} {...p} />}</Route>
      <Route path="/table/deviation/:id">{({ id }) => <Deviation key={id} id={id} />}</Route>
      <Route path={paths.recent}>
        <Recent />
      </Route>
      <Route path="/table/recent/:id">{({ id }) => <PutRight key={id} id={id} />}</Route>
      <Route path={paths.out}>
        <Out />
      </Route>
      <Route path="/table/out/send/:channel">{({ channel }) => <Send key={channel} channel={channel} />}</Route>
      <Route path={paths.cameBack}>
        <CameBack />
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
