/** Names by which a script can reach another machine, counted in a syntax tree so that comments and prose do not count. */

/** Every interface of a page or worker that opens a connection by itself. */
export const networkNames = [
  'fetch',
  'fetchLater',
  'XMLHttpRequest',
  'WebSocket',
  'WebSocketStream',
  'WebTransport',
  'EventSource',
  'sendBeacon',
  'importScripts',
  'RTCPeerConnection',
  'webkitRTCPeerConnection',
  'serviceWorker'
];
const isNetworkName = new Set(networkNames);

/** Under this name counts an import whose address is not a literal. */
export const computedImport = 'import(computed)';

/**
 * The network name that one node of a tree stands for, in whatever role: a call, a property, a text used as a key.
 * @param {Record<string, unknown>} node
 * @returns {string | null}
 */
function networkNameOf(node) {
  if (node['type'] === 'ImportExpression') {
    const source = /** @type {{type?: string, expressions?: unknown[]} | null} */ (node['source']);
    const literal =
      source?.type === 'Literal' || (source?.type === 'TemplateLiteral' && source.expressions?.length === 0);
    return literal ? null : computedImport;
  }
  const text =
    node['type'] === 'Identifier' ? node['name'] : node['type'] === 'Literal' ? node['value'] : null;
  return typeof text === 'string' && isNetworkName.has(text) ? text : null;
}

/**
 * How often each network name stands in an ESTree tree; names that do not occur are left out.
 * @param {unknown} tree
 * @returns {Record<string, number>}
 */
export function countNetworkNames(tree) {
  /** @type {Record<string, number>} */
  const counts = {};
  const waiting = [tree];
  while (waiting.length > 0) {
    const node = waiting.pop();
    if (typeof node !== 'object' || node === null) continue;
    const name = networkNameOf(/** @type {Record<string, unknown>} */ (node));
    if (name !== null) counts[name] = (counts[name] ?? 0) + 1;
    for (const child of Object.values(node)) waiting.push(child);
  }
  return counts;
}
