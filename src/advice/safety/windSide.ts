import type { SafetyQuantity, SafetyTable } from '../../config/index.ts';
import { meanBearingDeg } from '../../units/index.ts';
import type { Hazard } from '../types.ts';
import type { SafetyExtras } from './types.ts';

const OF_WIND: ReadonlySet<SafetyQuantity> = new Set(['windMs', 'gustMs', 'waveM']);
/** Hours whose wind has this share of the strongest are those that the hazard is about, where it names none itself. */
const STRONG_SHARE = 0.7;

/** What floats is blown onto a bank. */
const ADRIFT = 'debris';

/** Whether a hazard is one of wind or waves: by its own number, or one of those it is made of. */
export function isOfWind({ id }: Pick<Hazard, 'id'>, { hazards, combinations }: SafetyTable): boolean {
  const ofWind = (rowId: string): boolean =>
    hazards.some((row) => row.id === rowId && OF_WIND.has(row.quantity));
  const made = combinations.find((row) => row.id === id);
  return (
    ofWind(id) ||
    (made?.all ?? []).some((part) =>
      'hazard' in part
        ? ofWind(part.hazard)
        : // Still air is no wind: it lets algae grow.
          OF_WIND.has(part.quantity) && 'above' in part,
    )
  );
}

/** Whether a hazard is where the wind blows it: wind and waves, what floats, and what drifts in still air. */
function isOnOneSide(hazard: Hazard, table: SafetyTable): boolean {
  const made = table.combinations.find(({ id }) => id === hazard.id);
  const row = made ?? table.hazards.find(({ id }) => id === hazard.id);
  return (
    isOfWind(hazard, table) ||
    row?.group === ADRIFT ||
    (made?.all ?? []).some((part) => 'quantity' in part && OF_WIND.has(part.quantity))
  );
}

/** Hazards of wind and waves with where the wind blows from in their hours, so that their words can name a side. */
export function withWindSide(
  hazards: readonly Hazard[],
  table: SafetyTable,
  { hours = [] }: SafetyExtras,
): Hazard[] {
  return hazards.map((hazard) => {
    if (!isOnOneSide(hazard, table)) return hazard;
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
