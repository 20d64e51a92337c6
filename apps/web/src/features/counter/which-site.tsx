import { ask, type Reply } from '@bakehouse/api-client';
import { counterSites } from '@bakehouse/contracts';
import { useEffect, useState } from 'react';
import { Empty, LinkButton, Screen, Tile, Tiles } from '../../ui';

/** This browser is none of the bakehouse’s tablets: whose counter it stands on has to be said, and is never guessed. */
export function WhichSite() {
  const [reply, setReply] = useState<Reply<(typeof counterSites)['_output']>>();
  useEffect(() => void ask('get', '/counter/sites', counterSites).then(setReply), []);
  return (
    <Screen title="Which shop is this?">
      <p>
        This is not one of the bakehouse’s tablets yet. Choose the shop that you stand in: what another one used today says nothing about
        what is sold here.
      </p>
      {reply?.as === 'ok' ? (
        <Tiles label="Shops">
          {reply.value.map((s) => (
            <Tile key={s.id} to={`/counter/${s.id}`} title={s.name} />
          ))}
        </Tiles>
      ) : (
        <Empty>{reply === undefined ? 'One moment…' : 'The bakehouse’s computer cannot be reached. Ask the baker.'}</Empty>
      )}
      <div className="buttons">
        <LinkButton to="/">Make this one of the bakehouse’s tablets</LinkButton>
      </div>
    </Screen>
  );
}
