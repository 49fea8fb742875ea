/** The lake's ten days as a small line, for a page that shows several lakes. */
import { formatQuantity, type UnitSystem } from '../../units/index.ts';
import { dateWords, type BriefingPage, type Words } from '../../words/index.ts';
import { COLOUR } from '../style.ts';
import { area, dot, drawing, label, path, scale, WIDTH, type Point } from './svg.ts';
import type { Drawn } from './tenDays.ts';

const HEIGHT = 74;
const LEFT = 8;
const RIGHT = WIDTH - 130;

/** Water of the ten days up to today, its interval behind it; null where fewer than three days are known. */
export function waterLine(doc: BriefingPage, units: UnitSystem, words: Words): Drawn | null {
  const days = doc.series.days
    .filter(({ date }) => date <= doc.date)
    .slice(-10)
    .flatMap(({ date, waterC, waterLowC, waterHighC }) =>
      waterC === undefined ? [] : [{ date, waterC, lowC: waterLowC ?? waterC, highC: waterHighC ?? waterC }],
    );
  const [first, last] = [days[0], days.at(-1)];
  if (days.length < 3 || first === undefined || last === undefined) return null;
  const low = Math.min(...days.map(({ lowC }) => lowC));
  const high = Math.max(...days.map(({ highC }) => highC), low + 1);
  const x = scale(0, days.length - 1, LEFT, RIGHT);
  const y = scale(low, high, HEIGHT - 8, 8);
  const line = days.map(({ waterC }, i): Point => [x(i), y(waterC)]);
  const band: Point[] = [
    ...days.map(({ highC }, i): Point => [x(i), y(highC)]),
    ...days.map(({ lowC }, i): Point => [x(i), y(lowC)]).reverse(),
  ];
  const value = (waterC: number): string => formatQuantity(waterC, 'temperature', units);
  return {
    svg: drawing(HEIGHT, [
      area(band, COLOUR.blue, 0.16),
      path(line, { colour: COLOUR.blue, width: 3 }),
      dot([x(days.length - 1), y(last.waterC)], 5, COLOUR.blue, COLOUR.blue),
      label(RIGHT + 14, Math.min(HEIGHT - 6, Math.max(22, y(last.waterC) + 8)), value(last.waterC), {
        bold: true,
        size: 24,
        colour: COLOUR.blue,
        halo: false,
      }),
    ]),
    alt: words.front.waterLineAlt(dateWords(first.date, words.page), value(first.waterC), value(last.waterC)),
  };
}
