import type { Whereabouts } from '@bakehouse/views';
import type { ReactNode } from 'react';
import type { Night } from '../../../shared/night/use-night';
import { Icon, type IconName } from '../../../ui';
import { Door } from './door';
import { Ovens } from './ovens';
import { Prover } from './prover';
import { Rack } from './rack';
import { Table } from './table';
import { useTimers } from './use-timers';

interface Props {
  readonly where: Whereabouts;
  readonly night: Night;
}

/** The house as one walks through it: table, prover, ovens, cooling rack, door, all on one floor with their names under them. */
export function House(props: Props) {
  const timers = useTimers();
  return (
    <div className="house">
      <Place name="Table" icon="bowl" className="at-table">
        <Table {...props} timers={timers} />
      </Place>
      <Place name="Prover" icon="prover" className="at-prover">
        <Prover where={props.where} timers={timers} />
      </Place>
      <Place name="Ovens" icon="deck" className="at-ovens">
        <Ovens {...props} />
      </Place>
      <Place name="Cooling rack" icon="rack" className="at-rack">
        <Rack {...props} />
      </Place>
      <Place name="Door" icon="van" className="at-door">
        <Door {...props} />
      </Place>
    </div>
  );
}

function Place({
  name,
  icon,
  className,
  children,
}: {
  readonly name: string;
  readonly icon: IconName;
  readonly className: string;
  readonly children: ReactNode;
}) {
  return (
    <section className={`place ${className}`}>
      <h2>
        <Icon name={icon} /> {name}
      </h2>
      <div className="things">{children}</div>
    </section>
  );
}
