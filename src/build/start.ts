/** `npm start`: serves what was built and says where. PORT chooses the port, else 4180, else the next free one. */
import { startServer } from './serve.ts';

const wanted = Number(process.env['PORT'] ?? 4180);

async function start(): Promise<string> {
  for (let port = wanted; port < wanted + 20; port++) {
    try {
      return (await startServer(port)).address;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EADDRINUSE') throw error;
    }
  }
  throw new Error(`Ports ${wanted} to ${wanted + 19} are all taken. Set PORT to a free one.`);
}

console.log(`\nKeyrow preview: ${await start()}\nOpen this address in a browser. Ctrl+C stops it.\n`);
