import { materialList, partyList, type MaterialList } from '@bakehouse/contracts';
import type { KnownMaterial } from '@bakehouse/records';
import { useLoaded } from '../../shared/use-loaded';

/** The house's materials and parties as the service knows them now: what a sheet or a starter is compared with. */
export const useMaterials = () => useLoaded('/catalogue/materials', materialList);
export const useParties = () => useLoaded('/catalogue/parties', partyList);

export type Known = readonly KnownMaterial[];
export const knownOf = (materials: MaterialList): KnownMaterial[] =>
  materials.map(({ material, name, type }) => ({ material, name, type }));
