import { createSocket } from 'node:dgram';
import { createServer, type Server } from 'node:http';
import { listen } from '../../../src/tools/serve.js';

/** A machine that someone would send data to: it takes everything and writes down under which name it came. */
export interface Sink {
  readonly origin: string;
  readonly udpPort: number;
  /** Paths of the attempts that arrived, sorted, each once; `webrtc` for a datagram. */
  arrivals(): string[];
  close(): Promise<void>;
}

const headers = { 'access-control-allow-origin': '*', 'access-control-allow-headers': '*' };

function recordingServer(arrived: string[]): Server {
  const server = createServer((request, response) => {
    // A browser asks for this by itself once the sink's own page is open.
    if (request.url !== '/favicon.ico') arrived.push(`${request.method ?? ''} ${request.url ?? ''}`);
    request.resume();
    response.writeHead(200, { ...headers, 'content-type': 'text/plain' }).end();
  });
  server.on('upgrade', (request, socket) => {
    arrived.push(`UPGRADE ${request.url ?? ''}`);
    socket.destroy();
  });
  return server;
}

export async function openSink(): Promise<Sink> {
  const arrived: string[] = [];
  const server = recordingServer(arrived);
  const port = await listen(server, { port: 0 });
  const datagrams = createSocket('udp4', () => arrived.push('UDP /webrtc'));
  await new Promise<void>((resolve) => datagrams.bind(0, '127.0.0.1', resolve));
  return {
    origin: `http://127.0.0.1:${port}`,
    udpPort: datagrams.address().port,
    arrivals() {
      return [...new Set(arrived.map((line) => line.replace(/^[A-Z]+ \//, '')))].sort();
    },
    async close() {
      server.closeAllConnections();
      datagrams.close();
      await new Promise((resolve) => server.close(resolve));
    }
  };
}
