import { later } from '../../ui/later';

export const Deviation = later(() => import('../../features/night/deviation').then((m) => m.Deviation));
export const Correct = later(() => import('../../features/night/correct').then((m) => m.Correct));
export const DaySheet = later(() => import('../../features/night/sheet').then((m) => m.DaySheet));
export const ProbeCheck = later(() => import('../../features/checks/probe-check').then((m) => m.ProbeCheck));
export const Vessels = later(() => import('../../features/checks/vessel').then((m) => m.Vessels));
export const Returned = later(() => import('../../features/out/returned').then((m) => m.Returned));
export const CountLot = later(() => import('../../features/out/count-lot').then((m) => m.CountLot));
export const HoldPlace = later(() => import('../../features/checks/hold-place').then((m) => m.HoldPlace));
export const CleanDown = later(() => import('../../features/checks/clean-down').then((m) => m.CleanDown));
export const CounterPage = later(() => import('../../features/out/counter').then((m) => m.CounterPage));
export const StockPage = later(() => import('../../features/out/stock').then((m) => m.StockPage));
export const DeviationReport = later(() => import('../../features/night/deviation-report').then((m) => m.DeviationReport));
export const GoodsIn = later(() => import('../../features/goods-in/goods-in').then((m) => m.GoodsIn));
export const Send = later(() => import('../../features/out/send').then((m) => m.Send));
