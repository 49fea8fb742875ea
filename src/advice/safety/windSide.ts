import type { SafetyQuantity, SafetyTable } from '../../config/rulesSafety.ts';
import { meanBearingDeg } from '../../units/index.ts';
import type { Hazard } from '../types.ts';
import type { SafetyExtras } from './types.ts';

const OF_WIND: ReadonlySet<SafetyQuantity> = new Set(['windMs', 'gustMs', 'waveM']);
/** Hours whose wind has this share of the strongest are those that the hazard is about, where it names none itself. */
const STRONG_SHARE = 0.7;

/** What floats is blown onto a bank. */
const ADRIFT = 'debris';

/** Whether a hazard is where the wind is or blows it: by its own number, one of those it is made of, or as what floats. */
function isOfWind({ id }: Hazard, { hazards, combinations }: SafetyTable): boolean {
  const ofWind = (rowId: string): boolean =>
    hazards.some((row) => row.id === rowId && OF_WIND.has(row.quantity));
  const made = combinations.find((row) => row.id === id);
  return (
    ofWind(id) ||
    made?.group === ADRIFT ||
    (made?.all ?? []).some((part) => ('hazard' in part ? ofWind(part.hazard) : OF_WIND.has(part.quantity)))
  );
}

/** Hazards of wind and waves with where the wind blows from in their hours, so that their words can name a side. */
export function withWindSide(
  hazards: readonly Hazard[],
  table: SafetyTable,
  { hours = [] }: SafetyExtras,
): Hazard[] {
  return hazards.map((hazard) => {
    if (!isOfWind(hazard, table)) return hazard;
    const own = hazard.hours;
    const standing = hours.filter(
      ({ fromMs, toMs }) => own === undefined || own.some((span) => span.fromMs < toMs && span.toMs > fromMs),
    );
    const strongest = Math.max(0, ...standing.map(({ windMs }) => windMs ?? 0));
    const windFromDeg = meanBearingDeg(
      standing.flatMap(({ windMs = 0, windFromDeg: from }) =>
        from === undefined || windMs < STRONG_SHARE * strongest ? [] : [from],
      ),
    );
    return windFromDeg === undefined ? hazard : { ...hazard, windFromDeg: Math.round(windFromDeg) % 360 };
  });
}
