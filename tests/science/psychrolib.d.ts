/** The library ships no types; these are the calls the tests make. */
declare module 'psychrolib' {
  export const SI: number;
  export function SetUnitSystem(system: number): void;
  /** degC, relative humidity 0 to 1, Pa -> degC */
  export function GetTWetBulbFromRelHum(tempC: number, relHum: number, pressurePa: number): number;
}
