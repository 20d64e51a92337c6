import type { Need, State } from '../base/state.js';

/** What has to be loaded before `isHere` can be asked about a person. */
export const personNeeds = (person: string): Need[] => [
  { in: 'person', id: person },
  { in: 'personLeft', by: 'person', value: person },
];

/** Whether somebody has joined and has not left by an instant. */
export function isHere(state: State, person: string, at: string): boolean {
  return state.get('person', person) !== undefined && !state.find('personLeft', 'person', person).some((left) => left.at <= at);
}
