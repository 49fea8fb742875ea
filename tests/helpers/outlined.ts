import { readFileSync } from 'node:fs';

/** Positions on the invented outline, and ramps, that the example may not have yet. */
const POSITION = {
  mill: 'position: { lat: 35.92478, lon: -86.38939 }',
  hollow: 'position: { lat: 35.87032, lon: -86.41721 }',
  cedar: 'position: { lat: 35.89496, lon: -86.42347 }',
};

/** The example configuration with its lake on the invented outline. */
export function outlined(): string {
  const text = readFileSync('config/thawline.example.yaml', 'utf8');
  if (/^ {4}outline:/m.test(text)) return text;
  return text
    .replace('    area: 6200 acres\n', '    area: 6200 acres\n    outline: ossarly.geojson\n')
    .replace('        name: Mill Draw\n', `        name: Mill Draw\n        ${POSITION.mill}\n`)
    .replace('        name: Long Hollow\n', `        name: Long Hollow\n        ${POSITION.hollow}\n`)
    .replace(
      '{ name: Cedar Shoulder, place: secondary_point, bank: 12 deg }\n',
      `{ name: Cedar Shoulder, place: secondary_point, bank: 12 deg, ${POSITION.cedar} }\n    ramps:\n` +
        '      - { name: North Landing, position: { lat: 35.90805, lon: -86.40111 } }\n' +
        '      - { name: Dam Ramp, position: { lat: 35.8802, lon: -86.4480 } }\n',
    );
}
