/** From where somebody asks: an enrolled device, or an address outside of them. */
export type From = { readonly device: string } | { readonly address: string };

/** Where somebody on a device, or on none, asks from. */
export const fromOf = ({ device }: { readonly device: string | null }, address: string): From =>
  device === null ? { address } : { device };
