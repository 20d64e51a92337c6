import { unitNames, type Unit } from './units.js';

/** Other ways people and standards write the units: plain words, UCUM codes, and the UN/ECE Recommendation 20 codes of trade messages. */
const written = {
  mg: 'milligram milligrams MGM',
  g: 'gram grams gm GRM',
  kg: 'kilogram kilograms kilo kilos KGM',
  t: 'tonne tonnes metric-ton TNE',
  oz: 'ounce ounces [oz_av] ONZ',
  lb: 'lbs pound pounds [lb_av] LBR',
  ul: 'µl μl microlitre microliter 4G',
  ml: 'mL millilitre milliliter millilitres milliliters cc MLT',
  cl: 'cL centilitre centiliter CLT',
  dl: 'dL decilitre deciliter DLT',
  l: 'L litre liter litres liters LTR',
  'uk-fl-oz': 'imperial-fluid-ounce imperial-fluid-ounces uk-fluid-ounce fl-oz-uk floz-uk uk-floz imp-fl-oz [foz_br] OZI',
  'uk-pint': 'imperial-pint imperial-pints uk-pt uk-pints pint-uk [pt_br] PTI',
  'uk-gal': 'imperial-gallon imperial-gallons uk-gallon uk-gallons gal-uk galuk ukgal imp-gal gallon-uk gallons-uk [gal_br] GLI',
  'us-fl-oz': 'us-fluid-ounce fl-oz-us floz-us us-floz [foz_us] OZA',
  'us-cup': 'us-customary-cup us-cups cup-us [cup_us]',
  'us-pint': 'us-pt us-pints pint-us [pt_us] PTL',
  'us-quart': 'us-qt quart-us [qt_us] QTL',
  'us-gal': 'us-gallon us-gallons gal-us galus usgal gallon-us gallons-us [gal_us] GLL',
  degC: 'C °C celsius centigrade Cel CEL',
  degF: 'F °F fahrenheit [degF] FAH',
  K: 'kelvin KEL',
  ms: 'millisecond milliseconds',
  s: 'sec second seconds SEC',
  min: 'minute minutes mins',
  h: 'hr hour hours HUR',
  d: 'day days',
  mm: 'millimetre millimeter MMT',
  cm: 'centimetre centimeter CMT',
  m: 'metre meter metres meters MTR',
  in: 'inch inches [in_i] INH',
  ft: 'foot feet [ft_i] FOT',
  Pa: 'pascal PAL',
  hPa: 'hectopascal',
  mbar: 'millibar MBR',
  kPa: 'kilopascal KPA',
  bar: 'BAR',
  atm: 'atmosphere ATM',
  piece: 'pieces each pcs EA H87',
  dozen: 'DZN',
  percent: '% per-cent P1',
  ppm: 'parts-per-million mg/kg 59',
  pH: 'ph',
  aw: 'water-activity',
} as const satisfies Record<Unit, string>;

/** One spelling of what is written in many: signs for degrees, "degrees Celsius", "gal (UK)", "fl. oz.". */
const spelling = (text: string): string =>
  text
    .normalize('NFC')
    .trim()
    .replace(/[\u00ba\u02da]/g, '°')
    .replace(/\u2103/g, '°C')
    .replace(/\u2109/g, '°F')
    .replace(/°\s+/g, '°')
    .replace(/^deg(?:rees?)?[\s._-]+(?=\S)/i, '')
    .replace(/[()]/g, ' ')
    .trim()
    .replace(/[\s._-]+/g, '-');
const exact = new Map<string, Unit>(
  unitNames.flatMap((name) => [name, ...written[name].split(' ')].map((word) => [spelling(word), name] as const)),
);
const loose = new Map<string, Unit>([...exact].map(([word, name]) => [word.toLowerCase(), name] as const));

const ambiguous: Readonly<Record<string, string>> = {
  gal: 'uk-gal or us-gal',
  gallon: 'uk-gal or us-gal',
  gallons: 'uk-gal or us-gal',
  pint: 'uk-pint or us-pint',
  pints: 'uk-pint or us-pint',
  pt: 'uk-pint or us-pint',
  'fl-oz': 'uk-fl-oz or us-fl-oz',
  floz: 'uk-fl-oz or us-fl-oz',
  'fluid-ounce': 'uk-fl-oz or us-fl-oz',
  cup: 'us-cup, or a volume in ml: cups differ',
  cups: 'us-cup, or a volume in ml: cups differ',
  ton: 't (1000 kg), or a weight in lb: tons differ',
  quart: 'us-quart, or a volume in ml',
  qt: 'us-quart, or a volume in ml',
  degrees: 'degC, degF or K',
};

/** The unit that a word stands for, or what to write in its place. Capitals count only where they tell units apart. */
export function unitCalled(word: string): { unit: Unit } | { acceptable: string } {
  const key = spelling(word);
  const found = exact.get(key) ?? loose.get(key.toLowerCase());
  if (found !== undefined) return { unit: found };
  const choices = Object.hasOwn(ambiguous, key.toLowerCase()) ? ambiguous[key.toLowerCase()] : undefined;
  return { acceptable: choices ?? `one of ${unitNames.join(', ')}` };
}

/** The word as the unit it stands for, where it is one; anything else as it is, to be refused by the schema that follows. */
export function unitOr<T>(word: T): T | Unit {
  if (typeof word !== 'string' || word.length > 40) return word;
  const found = unitCalled(word);
  return 'unit' in found ? found.unit : word;
}
