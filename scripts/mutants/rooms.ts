/** A room: what is mutated, and the test files whose verdict counts. */
export interface Room {
  /** Folder of the sources. */
  readonly sources: string;
  /** Paths of the room's own tests; the fourteen golden mornings are not among them. */
  readonly tests: RegExp;
}

export const ROOMS: Readonly<Record<string, Room>> = {
  science: { sources: 'src/science', tests: /^tests\/science\/.*\.test\.ts$/ },
  // Without the scores on years of open data, which take longer than all of the others and forgive a small fault.
  water: { sources: 'src/water', tests: /^tests\/water\/(?!openData|(?:lake|river)\/accuracy).*\.test\.ts$/ },
  signals: { sources: 'src/signals', tests: /^tests\/signals\/.*\.test\.ts$/ },
  // Without the sweep of wild days and the fish surveys, which take longer than all of the others.
  advice: { sources: 'src/advice', tests: /^tests\/advice\/(?!sweep\/|fish\/).*\.test\.ts$/ },
  quality: { sources: 'src/record/quality', tests: /^tests\/record\/(?:quality[^/]*|columns)\.test\.ts$/ },
};

/** @throws RangeError for a name that is not in {@link ROOMS} */
export function roomNamed(name: string): Room {
  const room = ROOMS[name];
  if (room === undefined)
    throw new RangeError(`a room is one of ${Object.keys(ROOMS).join(', ')}, not ${name}`);
  return room;
}
