/** Below a dam whose turbines stand, and other days on which what a place lives by is not there. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { planOf } from './plan/support.ts';
import { adviceFor, type Form } from './support.ts';

const below = (more: Form): Form => ({
  date: '2026-07-24',
  latitude: 36,
  waterBody: 'tailwater',
  water: { main: '66 F', clarity: '8 ft' },
  air: { mean24h: '78 F', highToday: '88 F' },
  wind: { speed: '4 mph' },
  sky: 'clear',
  ...more,
});
const placesOf = (form: Form): string[] => planOf(form).blocks.map(({ place }) => place);
const rulesSaid = (form: Form): string[] =>
  adviceFor(form).positions.flatMap(({ because }) =>
    because.flatMap((fact) => ('rule' in fact ? fact.rule : [])),
  );

describe('below a dam whose turbines stand', () => {
  it('no seam is planned and no sentence speaks of water that moves, where nobody tells the current', () => {
    const still = below({ flow: { generation: 'off' } });
    expect(placesOf(still)).not.toContain('eddy_seam');
    expect(rulesSaid(still)).not.toContain('current.warm-season');
    expect(rulesSaid(still)).not.toContain('body.tailwater');
    const running = below({ flow: { generation: 'on', current: '1.5 ft/s' } });
    expect(placesOf(running)).toContain('eddy_seam');
    expect(rulesSaid(running)).toContain('body.tailwater');
  });

  it('a current that is told counts', () => {
    const slow = below({ flow: { generation: 'off', current: '0.6 ft/s' } });
    expect(adviceFor(slow).positions.find(({ place }) => place === 'eddy_seam')!.total).toBeGreaterThan(
      adviceFor(below({ flow: { generation: 'off' } })).positions.find(({ place }) => place === 'eddy_seam')!
        .total,
    );
  });

  it('the hours in which they run are none of slack water', () => {
    const morning = below({
      flow: { generation: 'off' },
      hours: [
        { at: '05:00', generation: 'on' },
        { at: '10:00', generation: 'off' },
      ],
    });
    const seam = planOf(morning).blocks.filter(({ place }) => place === 'eddy_seam');
    for (const { toMs, fromMs } of seam) expect(toMs).toBeLessThanOrEqual(fromMs + 6 * 3_600_000);
    expect(placesOf(morning)).not.toEqual(placesOf(below({ flow: { generation: 'off' } })));
  });
});

describe('air that is given for the day and for its hours', () => {
  const day = (highToday: string, noon: string): Form => ({
    date: '2026-07-24',
    latitude: 33,
    water: { main: '86 F' },
    air: { mean24h: '84 F', highToday },
    hours: [
      { at: '06:00', air: '76 F' },
      { at: '13:00', air: noon },
    ],
  });
  const heatOf = (form: Form): number | undefined =>
    adviceFor(form).safety.hazards.find(({ id }) => id.startsWith('h'))?.level;

  it('is judged by the hotter of the two', () => {
    expect(heatOf(day('104 F', '90 F'))).toBe(heatOf(day('104 F', '104 F')));
    expect(heatOf(day('104 F', '90 F'))).toBeGreaterThan(heatOf(day('90 F', '90 F'))!);
  });
});
