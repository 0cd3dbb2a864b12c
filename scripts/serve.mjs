import { createServer } from "node:http";
import { extname } from "node:path";

const HOST = "127.0.0.1";
const FIRST_PORT = 4173;
const PORTS = 50;

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".csv": "text/csv; charset=utf-8",
};

/** Answers with the file of that name; with nothing else. */
async function answer(file, name, response) {
  const type = TYPES[extname(name)];
  const body = type && (await file(name));
  if (body === undefined)
    return response.writeHead(404, { "content-type": "text/plain" }).end("There is no such file.\n");
  return response.writeHead(200, { "content-type": type, "cache-control": "no-store" }).end(body);
}

const listening = (server, port) =>
  new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, HOST, () => resolve(port));
  });

/** Answers requests, and keeps those who wait for changes. */
function serverOf({ file, first, changes }) {
  const waiting = new Set();
  const server = createServer((request, response) => {
    const name = new URL(request.url ?? "/", `http://${HOST}`).pathname.slice(1) || first;
    if (name === changes) {
      response.writeHead(200, { "content-type": "text/event-stream", "cache-control": "no-store" });
      response.write(": open\n\n");
      waiting.add(response);
      response.on("close", () => waiting.delete(response));
      return;
    }
    answer(file, name, response).catch(() => response.writeHead(500).end());
  });
  const changed = () => {
    for (const response of waiting) response.write("data: changed\n\n");
  };
  return { server, changed };
}

/**
 * Serves files to this machine only, on the first free port from 4173 up.
 *
 * @param {object} site
 * @param {(name: string) => Promise<string | Uint8Array | undefined>} site.file what a name stands for; nothing for other names
 * @param {string} site.first name of the file that stands at the root
 * @param {string} site.changes address at which pages wait for changes
 * @returns {Promise<{ address: string, changed: () => void, close: () => void }>} `changed` tells the pages that wait
 */
export async function serve(site) {
  for (let port = FIRST_PORT; port < FIRST_PORT + PORTS; port++) {
    const { server, changed } = serverOf(site);
    try {
      const address = `http://${HOST}:${await listening(server, port)}/`;
      const close = () => {
        server.close();
        server.closeAllConnections();
      };
      return { address, changed, close };
    } catch (error) {
      if (error.code !== "EADDRINUSE") throw error;
    }
  }
  throw new Error(`no free port from ${FIRST_PORT} to ${FIRST_PORT + PORTS - 1}`);
}
