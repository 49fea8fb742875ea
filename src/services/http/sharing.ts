import type { GetRequest, HttpClient, HttpReply } from './types.ts';

/**
 * A client that asks for one address only once: two lakes with the same station share its reply. Made for the span of
 * one refresh, so nothing is kept that could go stale. A failure is shared only with those who wait for it.
 */
export function sharing(client: HttpClient): HttpClient {
  const asked = new Map<string, Promise<HttpReply>>();
  return {
    ...client,
    get: async (request: GetRequest) => {
      const key = JSON.stringify([request.url, request.conditionalFor ?? null, request.headers ?? null]);
      const earlier = asked.get(key);
      if (earlier !== undefined) return earlier;
      const reply = client.get(request);
      asked.set(key, reply);
      reply.catch(() => asked.delete(key));
      return reply;
    },
  };
}
