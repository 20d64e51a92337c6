export { type LotAccountRows } from './account-rows.js';
export { type AccountLine, accountOf, accountsTogether } from './account.js';
export { type Balance, type BalanceInput, type Movement, balanceOf } from './balance.js';
export { type Reached, traceForward } from './forward.js';
export { type GroupRooms, roomsOfGroups, sharedOut, surelyOf } from './groups.js';
export { type PutOn, type TraceFlow, type TraceGraph, type TraceLot, nothingPutOn } from './graph.js';
export { type Touched, type Used, type UsedFlow, type UsedLot, lotAllergens, usedOf } from './lot-allergens.js';
export { type Scope, heatNote, scopeOf } from './scope.js';
export { whole } from './share.js';
