/** Serves `dist` as a host would, over https on this machine only: for a developer's own Excel. */
import { createServer, type Server } from 'node:https';
import { answerFrom } from './serve.ts';

export interface Certificate {
  readonly key: Uint8Array;
  readonly cert: Uint8Array;
}

/** Starts at a port of the loopback address; port 0 takes any free one. */
export function startAddinServer(port: number, { key, cert }: Certificate): Promise<Server> {
  return new Promise((done, fail) => {
    const server = createServer(
      { key: Buffer.from(key), cert: Buffer.from(cert) },
      answerFrom([['/', 'dist/']]),
    );
    server.once('error', fail);
    server.listen(port, '127.0.0.1', () => done(server));
  });
}
