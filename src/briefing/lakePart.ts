/** Wind, waves and sun at the lake's own places, and its outline as it is drawn. */
import type { LakeConfig } from '../config/index.ts';
import type { LakeFact, SignalReport, SignalStatement } from '../signals/index.ts';
import type { Briefing } from './document/briefing.ts';
import type { Statement } from './document/fact.ts';

const cm = (metres: number): number => Math.round(metres * 100) / 100;
const told = (statement: SignalStatement): Statement => statement;

/** What is said of the layer, with its interval. */
export const layerFact = ({ depthM, lowM, highM }: NonNullable<SignalReport['layer']>): LakeFact => ({
  code: 'layerEstimate',
  depthM,
  lowM,
  highM,
});

export function lakePart(
  { shape }: LakeConfig,
  { lake, pockets, release = [], layer }: SignalReport,
): Pick<Briefing, 'lakeWaves' | 'lakeToday' | 'map'> {
  const deep: LakeFact[] = layer === undefined ? [] : [layerFact(layer)];
  const ofDam = [...release, ...deep].map((fact) => told({ code: 'lake.today', told: fact }));
  if (lake === undefined) return ofDam.length === 0 ? {} : { lakeToday: ofDam };
  const waves = lake.told.find(({ code }) => code === 'waves');
  return {
    ...(waves === undefined ? {} : { lakeWaves: told({ code: 'lake.today', told: waves }) }),
    lakeToday: [
      ...ofDam,
      ...lake.told.filter((fact) => fact !== waves).map((fact) => told({ code: 'lake.today', told: fact })),
    ],
    ...(shape === undefined
      ? {}
      : {
          map: {
            rings: shape.drawn.map((ring) => ring.map(([east, north]): [number, number] => [east, north])),
            places: shape.places.map(({ name, kind, at, facesDeg }) => {
              const pocket = pockets.find((one) => one.name === name && one.warmestHourMs !== null);
              const hours = lake.places.find((place) => place.name === name)?.hours ?? [];
              return {
                named: name,
                kind,
                at: [at[0], at[1]] as [number, number],
                facesDeg: Math.round(facesDeg),
                waves: hours.flatMap(({ atMs, waveM }) =>
                  waveM === null ? [] : [{ atMs, waveM: cm(waveM) }],
                ),
                ...(pocket === undefined ? {} : { minusMainC: cm(pocket.minusMainC.value) }),
              };
            }),
          },
        }),
  };
}
