import { HOUR_MS } from '../../units/time/index.ts';
import { mean } from '../figure.ts';
import { gaugeValues, type GaugeSeries } from '../gauge.ts';

/**
 * A series of means over hours is stamped at their end; its name says that it is one: the third and fourth part of a
 * time series identifier are how a value was made and over what (CWMS, `Location.Parameter.Type.Interval.Duration.Version`:
 * `Ave` and a duration, end of period; from memory).
 */
const isHourlyMean = ({ gauge }: GaugeSeries): boolean =>
  gauge.service === 'cwms' && /^[^.]+\.[^.]+\.Ave\.[^.]+\.1Hour\./i.test(gauge.parameter ?? '');

/** Mean of a gauge in the hour that begins at an instant; null where it has no value in it. */
export function hourMean(series: GaugeSeries, startMs: number): number | null {
  const fromMs = isHourlyMean(series) ? startMs : startMs - 1;
  return mean(gaugeValues(series, fromMs, fromMs + HOUR_MS));
}
