/** Real `Excel.run` against the stand-in host, for tests. */
export * from '../../src/preview/host/node.ts';
