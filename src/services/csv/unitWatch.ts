/** A temperature in the other unit than the configuration says. */
import { POSSIBLE } from '../../record/quality/index.ts';
import type { Variable } from '../../record/index.ts';
import { toSiValue, unitNamed } from '../../units/index.ts';

/** Share of values that cannot be in the stated unit from which the unit is at fault and not the instrument. */
const MOST_IMPOSSIBLE = 0.5;

/** How a header ends that names its unit: `Temp (C)`, `water_degF`, `Temp, °C`. */
const NAMED = /(?:°|deg|[ _(,[-]) ?([CF])[)\]]?$/i;

const OTHER = { '°C': '°F', '°F': '°C' } as const;
type Unit = keyof typeof OTHER;

function possibleIn(unit: Unit, variable: Variable): (value: number) => boolean {
  const found = unitNamed('temperature', unit);
  const [low, high] = POSSIBLE[variable];
  return (value) => {
    const si = found === null ? Number.NaN : toSiValue(value, found);
    return si >= low && si <= high;
  };
}

export interface UnitDoubt {
  /** What is at fault, and the cure. */
  readonly sentence: string;
  /** False where only the header speaks against the unit. */
  readonly isSure: boolean;
}

/**
 * Values that hardly can be in the stated unit, and can in the other; or a column whose own name says the other.
 *
 * @param unit as configured
 * @param values as written, in that unit
 * @returns null where nothing speaks against the unit, or it is no temperature
 */
export function unitDoubt(
  variable: Variable,
  unit: string,
  column: string,
  values: readonly number[],
): UnitDoubt | null {
  const word = unitNamed('temperature', unit);
  const stated = (Object.keys(OTHER) as Unit[]).find((one) => unitNamed('temperature', one) === word);
  if (word === null || stated === undefined) return null;
  const other = OTHER[stated];
  const [isHere, isThere] = [possibleIn(stated, variable), possibleIn(other, variable)];
  const strange = values.filter((value) => !isHere(value) && isThere(value));
  if (values.length > 0 && strange.length / values.length > MOST_IMPOSSIBLE)
    return {
      sentence: `${strange.length} of ${values.length} values, such as ${strange[0]}, cannot be ${variable} in ${stated}, and can in ${other}. Write unit: ${other} for it in the configuration if that is what the logger gives.`,
      isSure: true,
    };
  const letter = NAMED.exec(column.replace(/\s+/g, ' '))?.[1]?.toUpperCase();
  return letter !== undefined && stated !== `°${letter}`
    ? {
        sentence: `the column calls itself ${other}, and the configuration says ${stated}. Write unit: ${other}, or rename the column.`,
        isSure: false,
      }
    : null;
}
