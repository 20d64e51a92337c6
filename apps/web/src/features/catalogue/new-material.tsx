import { useLocation } from 'wouter';
import { office } from '../../shared/office-paths';
import { SpecificationForm } from './specification-form';

/** A material that was not on the list. */
export function NewMaterial() {
  const [, go] = useLocation();
  return <SpecificationForm onDone={(material) => go(office.material(material))} onClose={() => go(office.materials)} />;
}
