import { SI_UNIT, VARIABLE, type QuantityKind, type Variable } from '../../vocabulary/index.ts';

/** What kind of quantity each stored variable is, for printing and for the unit column of an export. */
export const kindOfVariable = (variable: Variable): QuantityKind => VARIABLE[variable].kind;

/** Unit in which a variable is stored, as printed in exports: `degC`, `m3/s`. */
export function siUnitOf(variable: Variable): string {
  return SI_UNIT[kindOfVariable(variable)];
}
