/**
 * The one page that is handed out without encryption: how a phone gets to the encrypted address. The invitation stands
 * after the # of the address, which a browser never sends; a few lines of script carry it over.
 */
import { Hono } from 'hono';
import { tellBrowser } from './guard.ts';

const SCRIPT = `const on = document.getElementById('on');
if (on) on.href = on.dataset.to + '#/pair/' + encodeURIComponent(location.hash.slice(1));`;

const STYLE = `body{max-width:38rem;margin:0 auto;padding:1.2rem;font:1.2rem/1.5 Verdana,sans-serif;color:#16233a;background:#f6f1e4}
a.go{display:block;min-height:4rem;padding:1.2rem;background:#16233a;color:#f6f1e4;text-align:center;font-weight:700;text-decoration:none;border-radius:.4rem}
svg{display:block;width:100%;max-width:22rem;height:auto;margin:.6rem 0}
h2{margin:2rem 0 .4rem;font-size:1.3rem}`;

/** A phone's screen with lines of words, one of them to be tapped. */
function phone(title: string, lines: readonly string[], tap: number): string {
  const rows = lines
    .map((words, n) => {
      const y = 70 + n * 34;
      const here = n === tap;
      return `${here ? `<rect x="20" y="${y - 22}" width="260" height="32" rx="4" fill="#16233a"/>` : ''}<text x="30" y="${y}" fill="${here ? '#f6f1e4' : '#16233a'}">${words}</text>`;
    })
    .join('');
  return `<svg viewBox="0 0 300 ${90 + lines.length * 34}" role="img" aria-label="${title}" font-family="Verdana,sans-serif" font-size="14"><rect x="4" y="4" width="292" height="${82 + lines.length * 34}" rx="14" fill="none" stroke="#16233a" stroke-width="3"/><text x="20" y="36" font-weight="700" fill="#16233a">${title}</text>${rows}</svg>`;
}

function page(address: string): string {
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>To Chargewright</title><link rel="stylesheet" href="/landing.css"></head><body>
<h1>To Chargewright on the laptop</h1>
<p>This phone and the laptop speak in private, without the internet. The browser does not know the laptop yet, so it will ask.</p>
<h2>Now, in ten seconds</h2>
<p>Go on, and where the browser warns, let it through: the address is your own laptop's, ${address}.</p>
${phone('The browser warns', ['Not private, or not trusted', 'Back', 'Advanced, or Details', `Go on to ${address}`], 3)}
<p><a class="go" id="on" data-to="https://${address}/" href="https://${address}/">Go on</a></p>
<h2>Better, once, in two minutes</h2>
<p>Fetch the garage's own authority and tell the phone to trust it. Then there is no warning any more, and Chargewright can be put on the home screen and opens with the laptop switched off.</p>
<ol><li><a href="/garage.crt">Fetch the authority</a> (a small file).</li><li>Open it from the phone's settings: under certificates, install it as an authority; on some phones it must then be switched on under trusted authorities.</li><li>Come back to this page and go on.</li><li>In the browser's menu choose to add it to the home screen. On some phones what is on the home screen keeps its own data: pair once more there.</li></ol>
${phone('Settings, certificates', ['Install a certificate', 'Authority', 'garage.crt'], 1)}
<p>Trust it only if you set this laptop up yourself: whoever holds its key could speak as any site to this phone. You can take it out again in the same place.</p>
<script src="/landing.js"></script></body></html>`;
}

/** The landing page with what it needs; `authority` is a certificate, PEM, `address` host and port of the encrypted door. */
export function openLanding(authority: string, address: string): Hono {
  const app = new Hono();
  app.use(tellBrowser);
  const still = { 'cache-control': 'no-store' };
  app.get('/', (c) => c.html(page(address), 200, still));
  app.get('/landing.css', (c) => c.body(STYLE, 200, { 'content-type': 'text/css; charset=utf-8', ...still }));
  app.get('/landing.js', (c) =>
    c.body(SCRIPT, 200, { 'content-type': 'text/javascript; charset=utf-8', ...still }),
  );
  app.get('/garage.crt', (c) =>
    c.body(authority, 200, { 'content-type': 'application/x-x509-ca-cert', ...still }),
  );
  app.notFound((c) => c.text('Only the way to Chargewright is here.', 404));
  return app;
}
