/**
 * Signs of thunder where no service gives its chance: the weather model's own weather, and the energy of the air. A
 * model's storm is often hours off and may not come at all; energy needs something that sets it free.
 */
import { isThunderCode } from '../../science/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import type { WeatherTable } from './table.ts';

/** A storm of the model counts for hours this near, h (common practice, no source). */
const NEAR_H = 2;
/**
 * Convective available potential energy, J/kg: from 1000 on storms become moderate to strong, from 2500 on severe where
 * they form (classes of the United States National Weather Service, from memory).
 */
const STRONG_JKG = 1000;
const EXTREME_JKG = 2500;
/** Rain of an hour that says that something sets it free, mm. */
const SHOWER_MM = 0.2;

/** How far an hour points to thunder: 1 the model has it, 0.5 near one that has, 0.25 the air is ready for it, 0 no sign. */
export type StormSign = 0 | 0.25 | 0.5 | 1;

/** @returns undefined where neither weather nor energy of the hour is known */
export function stormSign(
  { weatherCode, cape, rain }: Pick<WeatherTable, 'weatherCode' | 'cape' | 'rain'>,
  startMs: number,
): StormSign | undefined {
  const codeAt = (ms: number): number | undefined => weatherCode.at(ms);
  const [code, energyJkg] = [codeAt(startMs), cape.at(startMs)];
  if (code === undefined && energyJkg === undefined) return undefined;
  // A code is that of its instant: an hour has the one it begins with and the one it ends with.
  const has = (ms: number): boolean =>
    [codeAt(ms), codeAt(ms + HOUR_MS)].some((ww) => ww !== undefined && isThunderCode(ww));
  if (has(startMs)) return 1;
  for (let away = 1; away <= NEAR_H; away += 1)
    if (has(startMs - away * HOUR_MS) || has(startMs + away * HOUR_MS)) return 0.5;
  // Rain that is not known frees no storm.
  const free = (rain.at(startMs + HOUR_MS) ?? 0) >= SHOWER_MM;
  return energyJkg !== undefined && energyJkg >= (free ? STRONG_JKG : EXTREME_JKG) ? 0.25 : 0;
}
