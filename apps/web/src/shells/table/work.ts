/** The screens that a shift goes through again and again. */
export { Batch } from '../../features/night/batch';
export { CountOut } from '../../features/night/count-out';
export { Load } from '../../features/night/load';
export { LoadNew } from '../../features/night/load-new';
export { Make } from '../../features/night/make';
export { MakeUp } from '../../features/night/make-up';
export { Mixed } from '../../features/night/mixed';
export { OpenLots } from '../../features/night/open-lots';
export { Reading } from '../../features/night/reading';
export { Recent } from '../../features/night/recent';
export { Run } from '../../features/night/run';
export { Start, StartOne } from '../../features/night/start';
export { Weigh } from '../../features/night/weigh';
export { Move } from '../../features/out/move';
export { Out } from '../../features/out/out';
