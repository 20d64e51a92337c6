/** Stands as the basis of a limit that came from a starter. While it stands there, no plan with it is put in force. */
export const notValidated = 'not validated: put your own evidence here';

/** Whether a basis is still the starter's. */
export const isNotValidated = (basis: string): boolean => basis.toLowerCase().includes(notValidated);
