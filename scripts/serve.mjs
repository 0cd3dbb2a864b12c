import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { basename, extname, join } from "node:path";

const HOST = "127.0.0.1";
const FIRST_PORT = 4173;
const PORTS = 50;

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".csv": "text/csv; charset=utf-8",
};

/** Answers with the page, or with a file that lies directly in the folder; with nothing else. */
async function answer(folder, page, request, response) {
  const { pathname } = new URL(request.url ?? "/", `http://${HOST}`);
  const name = pathname === "/" ? page : basename(pathname);
  const type = TYPES[extname(name)];
  const body = type && (await readFile(join(folder, name)).catch(() => undefined));
  if (!body) return response.writeHead(404, { "content-type": "text/plain" }).end("There is no such file.\n");
  return response.writeHead(200, { "content-type": type, "cache-control": "no-store" }).end(body);
}

const listening = (server, port) =>
  new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, HOST, () => resolve(port));
  });

/**
 * Serves the files of a folder to this machine only, on the first free port from 4173 up.
 *
 * @param {string} folder
 * @param {string} page name of the file that stands at the root
 * @returns {Promise<string>} the address
 */
export async function serve(folder, page) {
  for (let port = FIRST_PORT; port < FIRST_PORT + PORTS; port++) {
    const server = createServer((request, response) => {
      answer(folder, page, request, response).catch(() => response.writeHead(500).end());
    });
    try {
      return `http://${HOST}:${await listening(server, port)}/`;
    } catch (error) {
      if (error.code !== "EADDRINUSE") throw error;
    }
  }
  throw new Error(`no free port from ${FIRST_PORT} to ${FIRST_PORT + PORTS - 1}`);
}
