/** What a house buys for its first loaf, as a sheet; “gluten” alone names no allergen. */
export const firstMaterials = [
  'Name,Flour,Kept,Contains,Checked against,Checked on,Supplier',
  'Strong white flour,yes,,wheat,label,2026-11-20,Test Mill',
  'Water,,,none,label,2026-11-20,',
  'Salt,,,none,label,2026-11-20,Test Mill',
  'Fresh yeast,,chilled,none,label,2026-11-20,Test Mill',
  'Malt,,,gluten,label,2026-11-20,Test Mill',
].join('\n');

/** Where a first house is, and its authority. The number is one set aside for fiction. */
export const firstSite = [
  ['Address, as it stands on papers', '3 Mill Lane'],
  ['Local food-safety authority', 'District food office'],
  ['Telephone of the authority', '01632 960110'],
] as const;
