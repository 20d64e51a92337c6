declare module 'jstat' {
  /** The one distribution used here; the package carries no types. */
  const jstat: { readonly studentt: { inv(share: number, degrees: number): number } };
  export default jstat;
}
