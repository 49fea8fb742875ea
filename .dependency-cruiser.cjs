const { readdirSync } = require('node:fs');
const { join } = require('node:path');

/** The floors: each room may use only the rooms below it, and the pure rooms touch no clock, network or file. */
const floors = [
  ['units', []],
  ['vocabulary', []],
  [
    'words',
    [
      'units',
      'vocabulary',
      'science',
      'water',
      'config',
      'record',
      'services',
      'signals',
      'advice',
      'plan',
      'gate',
      'briefing',
      'verification',
      'outings',
    ],
  ],
  ['science', ['units']],
  ['water', ['units', 'science']],
  ['shape', ['units']],
  ['config', ['units', 'shape']],
  ['record', ['units']],
  ['services', ['units', 'science', 'record', 'config']],
  ['signals', ['units', 'science', 'water', 'shape', 'record', 'config']],
  ['advice', ['units', 'science', 'signals', 'config']],
  ['gate', ['units', 'vocabulary', 'science', 'config', 'signals', 'advice']],
  ['briefing', ['gate', 'units', 'science', 'shape', 'signals', 'advice', 'config']],
  ['verification', ['units', 'science', 'water', 'record', 'config', 'signals', 'advice', 'briefing']],
  ['outings', ['units', 'science', 'record', 'config']],
  ['render', ['units', 'words', 'science', 'shape', 'signals', 'advice', 'briefing', 'config']],
  ['delivery', ['units', 'words', 'config', 'record', 'briefing', 'render']],
  [
    'schedule',
    [
      'words',
      'units',
      'science',
      'water',
      'shape',
      'config',
      'record',
      'services',
      'signals',
      'advice',
      'gate',
      'briefing',
      'verification',
      'outings',
      'render',
      'delivery',
    ],
  ],
  [
    'web',
    [
      'words',
      'units',
      'science',
      'water',
      'config',
      'record',
      'services',
      'signals',
      'advice',
      'briefing',
      'verification',
      'outings',
      'render',
      'delivery',
      'schedule',
    ],
  ],
];
/** On top of all of them; nothing stands on it. */
const TOP = 'cli';
const unruled = readdirSync(join(__dirname, 'src'), { withFileTypes: true })
  .map((entry) => entry.name)
  .filter((name) => name !== TOP && !floors.some(([room]) => room === name));
if (unruled.length > 0) {
  throw new Error(
    `src/${unruled[0]} has no rule: add it to the floors of .dependency-cruiser.cjs with the rooms that it may use.`,
  );
}
/** What may be asked of a room stands in its index, or in the index of one of its folders; what else a file holds is the room's own. */
const rooms = floors.map(([room]) => room);
const pure = '^src/(units|science|water|shape|signals|advice|gate|briefing|verification|outings)/';
module.exports = {
  forbidden: [
    ...floors.map(([room, below]) => ({
      name: `${room}-floor`,
      comment: `${room}/ may use only: ${below.join(', ') || 'nothing'}`,
      severity: 'error',
      from: { path: `^src/${room}/` },
      to: { path: '^src/', pathNot: `^src/(vocabulary|${[room, ...below].join('|')})/` },
    })),
    {
      name: 'nothing-stands-on-the-command-line',
      severity: 'error',
      from: { pathNot: `^src/${TOP}/` },
      to: { path: `^src/${TOP}/` },
    },
    ...rooms.map((room) => ({
      name: `${room}-door`,
      comment: `${room}/ is imported through its index, or the index of one of its folders`,
      severity: 'error',
      from: { pathNot: `^src/${room}/` },
      to: { path: `^src/${room}/`, pathNot: [`^src/${room}/index[.]ts$`, `^src/${room}/[^/]+/index[.]ts$`] },
    })),
    {
      name: 'pure-rooms',
      comment:
        'the way from signals to briefing is a pure function: no files, network, processes, clock or database',
      severity: 'error',
      from: { path: pure },
      to: {
        path: '^(node:)?(fs|fs/promises|net|http|https|child_process|os|worker_threads|dns|timers|process)$|node_modules/(undici|kysely|@photostructure|nodemailer|node-cron|pino)',
      },
    },
    {
      name: 'no-circular',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
  },
};
