import { useTabletState } from './tablet-context';

/** What a product or a formula that a plan names is called, as far as this device knows. */
export function useMaterialOrFormula(): (id: string) => string | undefined {
  const { snapshot } = useTabletState();
  const names = new Map<string, string>();
  for (const { material, name } of snapshot.specification) names.set(material, name);
  for (const { formula, name } of snapshot.formulaVersion) names.set(formula, name);
  return (id) => names.get(id);
}
