/**
 * Present weather by its code figure `ww`, which weather models state of their hours too.
 *
 * @see WMO Manual on Codes (WMO-No. 306), volume I.1, code table 4677, as printed at
 * https://www.nodc.noaa.gov/gtspp/document/codetbls/wmocodes/table4677.html
 */

/** Thunderstorm at the time: heard without precipitation (17), or with it (95 to 99). */
export const isThunderCode = (ww: number): boolean => ww === 17 || (ww >= 95 && ww <= 99);

/** Fog or ice fog at the time and place: 41 to 49; at a distance (40) is none here. */
export const isFogCode = (ww: number): boolean => ww >= 41 && ww <= 49;
