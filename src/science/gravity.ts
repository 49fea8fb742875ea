/** Standard gravity, m/s2 (BIPM, 3rd CGPM 1901; exact by definition). */
export const GRAVITY_MS2 = 9.80665;

/** As the published wave, layer and pocket formulas round it, m/s2: their coefficients were fitted with it. */
export const ROUNDED_GRAVITY_MS2 = 9.81;
