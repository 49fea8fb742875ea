/** What a configuration says of a gauge, as far as it names the series. */
export interface GaugeName {
  readonly station: string;
  readonly parameter?: string;
  readonly office?: string;
}

/** Services write a series of the record as `<site>/<parameter>/<series>`. */
export function ownsBySite(station: string, { station: site, parameter }: GaugeName): boolean {
  if (station === site) return true;
  if (!station.startsWith(`${site}/`)) return false;
  const rest = station.slice(site.length + 1);
  return parameter === undefined || rest === parameter || rest.startsWith(`${parameter}/`);
}

/** A site of the USGS may be configured by its bare number. */
export function ownsUsgs(station: string, gauge: GaugeName): boolean {
  const site = /^\d+$/.test(gauge.station) ? `USGS-${gauge.station}` : gauge.station;
  return ownsBySite(station, { ...gauge, station: site });
}

/** A series with a whole name of its own, `<office>/<series name>`, in letters of either case. */
export function ownsByName(station: string, { office, parameter }: GaugeName): boolean {
  const own = `${office ?? ''}/${parameter ?? ''}`.toUpperCase();
  return station.toUpperCase() === own || station.toUpperCase().startsWith(`${own}/`);
}

/** For services without gauges. */
export const ownsNothing = (): boolean => false;
