/** Kinds of quantity the program speaks of. Every stored value is in the SI unit named here. */
export const SI_UNIT = {
  temperature: 'degC',
  temperatureDifference: 'K',
  /** Errors are means of many differences: finer than a single one is shown. */
  temperatureError: 'K',
  temperatureRate: 'K/d',
  level: 'm',
  levelChange: 'm',
  levelError: 'm',
  levelRate: 'm/h',
  depth: 'm',
  distance: 'm',
  clarity: 'm',
  /** Where a lure lands: nobody casts to a tenth of a foot. */
  landing: 'm',
  waveHeight: 'm',
  wayByWater: 'm',
  rain: 'mm',
  windSpeed: 'm/s',
  windSpeedError: 'm/s',
  lureSpeed: 'm/s',
  flow: 'm3/s',
  pressure: 'hPa',
  irradiance: 'W/m2',
  stormEnergy: 'J/kg',
  turbidity: 'FNU',
  percent: '%',
  share: '1',
  hours: 'h',
  days: 'd',
  seconds: 's',
  angle: 'deg',
  /** Between a cast and the bank: nobody aims to a degree. */
  castAngle: 'deg',
  turnRate: '1/s',
  lineTake: 'm',
  lineTest: 'kg',
  lureMass: 'kg',
  baitLength: 'm',
  oxygen: 'mg/L',
  count: '1',
} as const;

export type QuantityKind = keyof typeof SI_UNIT;

export type UnitSystem = 'us' | 'metric';
