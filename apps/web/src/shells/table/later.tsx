import { lazy, Suspense, type ComponentType } from 'react';

/** A screen that the first one does not need: it comes when it is opened. The device keeps it with the rest, for when there is no network. */
function later<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  const Screen = lazy(() => load().then((screen) => ({ default: screen })));
  return function Later(props: P) {
    return (
      <Suspense fallback={null}>
        <Screen {...props} />
      </Suspense>
    );
  };
}

export const Deviation = later(() => import('../../features/night/deviation').then((m) => m.Deviation));
export const Correct = later(() => import('../../features/night/correct').then((m) => m.Correct));
export const DaySheet = later(() => import('../../features/night/sheet').then((m) => m.DaySheet));
export const ProbeCheck = later(() => import('../../features/checks/probe-check').then((m) => m.ProbeCheck));
export const Vessels = later(() => import('../../features/checks/vessel').then((m) => m.Vessels));
export const Returned = later(() => import('../../features/out/returned').then((m) => m.Returned));
export const CountLot = later(() => import('../../features/out/count-lot').then((m) => m.CountLot));
export const CleanDown = later(() => import('../../features/checks/clean-down').then((m) => m.CleanDown));
export const CounterPage = later(() => import('../../features/out/counter').then((m) => m.CounterPage));
export const StockPage = later(() => import('../../features/out/stock').then((m) => m.StockPage));
export const DeviationReport = later(() => import('../../features/night/deviation-report').then((m) => m.DeviationReport));
export const GoodsIn = later(() => import('../../features/goods-in/goods-in').then((m) => m.GoodsIn));
export const Send = later(() => import('../../features/out/send').then((m) => m.Send));
export const Officer = later(() => import('../../features/inspection/officer').then((m) => m.Officer));

/** What a shift goes through again and again comes in one piece, while the first screen is looked at. */
const work = () => import('./work');
export const Batch = later(() => work().then((m) => m.Batch));
export const CountOut = later(() => work().then((m) => m.CountOut));
export const Load = later(() => work().then((m) => m.Load));
export const LoadNew = later(() => work().then((m) => m.LoadNew));
export const Make = later(() => work().then((m) => m.Make));
export const MakeUp = later(() => work().then((m) => m.MakeUp));
export const Mixed = later(() => work().then((m) => m.Mixed));
export const OpenLots = later(() => work().then((m) => m.OpenLots));
export const Reading = later(() => work().then((m) => m.Reading));
export const Recent = later(() => work().then((m) => m.Recent));
export const Run = later(() => work().then((m) => m.Run));
export const Start = later(() => work().then((m) => m.Start));
export const StartOne = later(() => work().then((m) => m.StartOne));
export const Weigh = later(() => work().then((m) => m.Weigh));
export const Move = later(() => work().then((m) => m.Move));
export const Out = later(() => work().then((m) => m.Out));

/** Beside every screen, and not before the first one stands. */
export const Beside = later(() => import('./beside').then((m) => m.Beside));
