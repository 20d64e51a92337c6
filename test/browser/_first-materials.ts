/** What a house buys for its first loaf, as a sheet; “gluten” alone names no allergen. */
export const firstMaterials = [
  'Name,Flour,Kept,Contains,Checked against,Checked on,Supplier',
  'Strong white flour,yes,,wheat,label,2026-11-20,Test Mill',
  'Water,,,none,label,2026-11-20,',
  'Salt,,,none,label,2026-11-20,Test Mill',
  'Fresh yeast,,chilled,none,label,2026-11-20,Test Mill',
  'Malt,,,gluten,label,2026-11-20,Test Mill',
].join('\n');
