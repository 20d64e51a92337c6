import { ask } from '@bakehouse/api-client';
import { enrolledDevice } from '@bakehouse/contracts';
import { useState } from 'react';
import { Button, Field } from '../../ui';
import { troubleOf } from '../../shared/trouble-of';
import { TroubleNotice } from '../../shared/trouble-notice';

/** Makes this browser one of the house's tablets, with a code from the manager of the site. Then a tapped name is enough. */
export function Enrol({ onEnrolled }: { readonly onEnrolled: () => void }) {
  const [code, setCode] = useState('');
  const [name, setName] = useState('Table');
  const [trouble, setTrouble] = useState<{ readonly title: string; readonly detail: string }>();
  const enrol = async (): Promise<void> => {
    const reply = await ask('post', '/devices/enrol', enrolledDevice, { body: { code: code.trim(), name: name.trim() } });
    if (reply.as === 'ok') onEnrolled();
    else setTrouble(troubleOf(reply, 'Try again when the network is back.'));
  };
  return (
    <details className="section">
      <summary>Make this one of the bakehouse’s tablets</summary>
      <p>Then tapping a name is enough here. The manager of the site gets a code in the office pages; it is valid for ten minutes.</p>
      <TroubleNotice of={trouble} />
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void enrol();
        }}
      >
        <Field label="Code" value={code} onChange={setCode} required maxLength={80} />
        <Field label="What this tablet is called" value={name} onChange={setName} required maxLength={60} />
        <div className="buttons">
          <Button look="go" submit disabled={code.trim().length < 4 || name.trim() === ''}>
            Enrol
          </Button>
        </div>
      </form>
    </details>
  );
}
