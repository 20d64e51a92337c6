import { useWho } from './who';

const pinNeeded = {
  as: 'problem',
  status: 403,
  problem: { problem: 'pin-needed', title: 'Your PIN', detail: 'Give your PIN first.' },
  document: null,
} as const;

/** Asks for the PIN of the person signed on, unless it was given already; whether it was given. */
export function useProven(): () => Promise<boolean> {
  const { people, person, as } = useWho();
  return async () => {
    const given = await as<true>(() => Promise.resolve(people.isProven(person.id) ? { as: 'ok', value: true } : pinNeeded));
    return given.as === 'ok';
  };
}
