/** A mapping as YAML gives it. */
type Entry = Record<string, unknown>;

const isEntry = (value: unknown): value is Entry =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const entriesOf = (value: unknown): Entry[] => (Array.isArray(value) ? value.filter(isEntry) : []);
const pairOf = (value: unknown): readonly [number, number] =>
  Array.isArray(value) && value.length === 2 ? [Number(value[0]), Number(value[1])] : [NaN, NaN];

/** What the second version asks of the settings and the first did not have. */
const NEW_SETTINGS: Entry = {
  boatMarginsM: [0.3, 0.46, 0.61],
  landingShares: [0.33, 0.42, 0.5],
  ledgeLandingShares: [0.58, 0.67, 0.75],
  leastContact: 0.3,
  contactAim: 0.45,
  clearanceM: { open: 0.3, guarded: 0.15 },
  holdShare: 0.8,
  rodTipM: 0.9,
  frontColderC: 0,
  frontSkyPct: [30, 60],
  clarityStepsM: [1.83, 0.91, 0.46],
  windStepsMs: [3.6, 6.7],
  windPerCurrent: 20,
};
const GONE_SETTINGS = ['castDepthShare', 'speedTable', 'speedShare', 'pauseTable', 'pauseFromC', 'pauseToC'];

/** Snag resistance of the first version, 0 to 1, as what a lure comes through, 0 to 5. */
const CLEAN = 5;
/** From here on a lure of the first version counts as guarded. */
const GUARDED = 0.6;

function classOf(before: Entry, settings: Entry): Entry {
  const { speedMs, pauseS, snagResistance, ...kept } = before;
  const share = isEntry(settings['speedShare'])
    ? Number(settings['speedShare'][String(before['family'])])
    : 1;
  const [slowest, fastest] = pairOf(speedMs);
  const [shortest, longest] = pairOf(pauseS);
  const table = Array.isArray(settings['speedTable']) ? settings['speedTable'] : [];
  const clean = Math.round(CLEAN * Number(snagResistance));
  const light = isEntry(before['light']) ? before['light'] : {};
  const treble = before['lip'] !== 'none';
  return {
    ...kept,
    guard: treble ? 'treble' : Number(snagResistance) >= GUARDED ? 'guarded' : 'open',
    speed: table.map((row) => {
      const [waterC, ms] = pairOf(row);
      return [waterC, Math.min(Math.max(ms * share, slowest), fastest)];
    }),
    rest:
      before['family'] === 'suspending'
        ? settings['pauseTable']
        : [
            [settings['pauseFromC'], longest],
            [settings['pauseToC'], shortest],
          ],
    weightsG: [],
    castM: [0, 40],
    light: { ...light, night: light['low'] },
    comesThrough: { wood: clean, dock: clean, rock: clean, grass: clean, mat: clean },
    colours: {},
  };
}

/**
 * A lure book as written, brought to the shape of today: one of the first version keeps its numbers, and says nothing
 * of weights, hooks and colours, which it did not know.
 */
export function luresAsToday(written: unknown): unknown {
  if (!isEntry(written) || written['schema'] !== 'thawline-lures/1') return written;
  const settings = isEntry(written['settings']) ? written['settings'] : {};
  const kept = Object.fromEntries(Object.entries(settings).filter(([name]) => !GONE_SETTINGS.includes(name)));
  const weights = isEntry(written['weights']) ? written['weights'] : {};
  return {
    ...written,
    schema: 'thawline-lures/2',
    settings: { ...NEW_SETTINGS, ...kept },
    weights: { ...weights, situation: 0 },
    situations: [],
    classes: entriesOf(written['classes']).map((entry) => classOf(entry, settings)),
  };
}
