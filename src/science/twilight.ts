/** Civil twilight begins and ends with the centre of the sun at this altitude, degrees (by its definition). */
export const CIVIL_TWILIGHT_DEG = -6;
