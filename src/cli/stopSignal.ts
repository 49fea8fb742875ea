/** Signal that fires at the first SIGTERM or SIGINT; the second one ends the process as usual. */
export function stopSignal(): AbortSignal {
  const stop = new AbortController();
  for (const name of ['SIGTERM', 'SIGINT'] as const) process.once(name, () => stop.abort());
  return stop.signal;
}
