/**
 * Code that runs inside a page or worker under test and tries every way out it knows. Each function is carried over
 * as text, so it may use nothing from outside itself. An attempt that is refused may throw: only arrivals count.
 */

/** Ways out that a page and a worker have alike. */
export const commonAttempts = ['eventsource', 'fetch', 'import', 'keepalive', 'websocket', 'xhr'];

/** Ways out that only a page has and that the policy closes. */
export const pageAttempts = [
  'background',
  'beacon',
  'embed',
  'font',
  'form',
  'frame',
  'image',
  'modulepreload',
  'object',
  'ping',
  'prefetch',
  'preload',
  'script',
  'sheet',
  'svg-image',
  'video'
];

export async function provokeCommon(sink: string): Promise<void> {
  const attempts: (() => unknown)[] = [
    () => fetch(`${sink}/fetch`),
    () => fetch(`${sink}/keepalive`, { method: 'POST', body: 'x', keepalive: true, mode: 'no-cors' }),
    () => new EventSource(`${sink}/eventsource`),
    () => new WebSocket(`${sink.replace('http', 'ws')}/websocket`),
    () => import(/* @vite-ignore */ `${sink}/import`),
    () =>
      new Promise((resolve) => {
        const request = new XMLHttpRequest();
        request.onloadend = resolve;
        request.open('GET', `${sink}/xhr`);
        request.send();
      })
  ];
  const attempt = async (run: () => unknown) => await run();
  await Promise.allSettled(attempts.map(attempt));
}

export async function provokePage(sink: string): Promise<void> {
  const element = (name: string, attributes: Record<string, string>) => () => {
    const made = document.createElement(name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    document.body.append(made);
    return made;
  };
  const link = (rel: string, more: Record<string, string> = {}) =>
    element('link', { rel, href: `${sink}/${rel === 'stylesheet' ? 'sheet' : rel}`, ...more });
  const attempts: (() => unknown)[] = [
    () => navigator.sendBeacon(`${sink}/beacon`, 'x'),
    () => new FontFace('made', `url(${sink}/font)`).load(),
    () => {
      const box = element('div', {})();
      box.textContent = 'box';
      box.style.backgroundImage = `url(${sink}/background)`;
    },
    () => {
      const form = element('form', { action: `${sink}/form`, method: 'post', target: '_blank' })();
      if (form instanceof HTMLFormElement) form.submit();
    },
    () => element('a', { href: '#', ping: `${sink}/ping` })().click(),
    () => {
      const image = document.createElementNS('http://www.w3.org/2000/svg', 'image');
      image.setAttribute('href', `${sink}/svg-image`);
      const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
      svg.append(image);
      document.body.append(svg);
    },
    element('img', { src: `${sink}/image` }),
    element('video', { src: `${sink}/video`, preload: 'auto' }),
    element('object', { data: `${sink}/object` }),
    element('embed', { src: `${sink}/embed` }),
    element('iframe', { src: `${sink}/frame` }),
    element('script', { src: `${sink}/script` }),
    link('stylesheet'),
    link('prefetch'),
    link('modulepreload'),
    link('preload', { as: 'image' })
  ];
  const attempt = async (run: () => unknown) => await run();
  await Promise.allSettled(attempts.map(attempt));
}

/** Ways out that a page's own policy cannot close: opening or going to another page, and WebRTC. */
export async function provokeRemainder({ sink, udpPort }: { sink: string; udpPort: number }): Promise<void> {
  window.open(`${sink}/open`);
  const peer = new RTCPeerConnection({ iceServers: [{ urls: `stun:127.0.0.1:${udpPort}` }] });
  peer.createDataChannel('made');
  await peer.setLocalDescription(await peer.createOffer());
  await new Promise((resolve) => setTimeout(resolve, 500));
  location.href = `${sink}/navigate`;
}
