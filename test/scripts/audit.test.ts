/** What npm's answers mean. Their shape: npm's documentation of `npm audit --json`, and answers as they came. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { audit, readAudit, tellAudit } from '../../scripts/audit.mjs';

const fault = (name: string, severity: string) => ({
  name,
  severity,
  range: '<1.2.3',
  via: ['another', { title: 'Reads past its end' }],
});

it('fails by high and critical ones, and names them', () => {
  const vulnerabilities = { a: fault('a', 'high'), b: fault('b', 'low'), c: fault('c', 'critical') };
  const found = readAudit(JSON.stringify({ auditReportVersion: 2, vulnerabilities }));
  expect(found).toEqual({
    ran: true,
    known: 3,
    grave: ['a <1.2.3 (high): Reads past its end', 'c <1.2.3 (critical): Reads past its end'],
  });
  expect(tellAudit(found)).toHaveLength(2);
});

it('lets lesser ones pass, and says how many there are', () => {
  const some = readAudit(JSON.stringify({ vulnerabilities: { b: fault('b', 'moderate') } }));
  expect(tellAudit(some)).toEqual([
    '1 fault is known in the packages that the program runs on, none of them grave.',
  ]);
  expect(tellAudit(readAudit('{"vulnerabilities":{}}'))[0]).toMatch(/^No fault is known/);
});

it.each([
  [
    '{"message":"405 Method Not Allowed - POST somewhere","statusCode":405,"error":{"summary":"","detail":""}}',
    /it answered 405/,
  ],
  ['{"error":{"code":"ENOTFOUND","summary":"request failed"}}', /ENOTFOUND/],
  ['{"error":{"code":"ENOLOCK","summary":"no lock"}}', /ENOLOCK/],
  ['', /no answer/],
  ['<html>', /no answer/],
  ['null', /could not be asked/],
])('takes %j for not run, never for sound', (text, why) => {
  const found = readAudit(text);
  expect(found.ran).toBe(false);
  expect(tellAudit(found)[0]).toMatch(/^Not run: /);
  expect(tellAudit(found)[0]).toMatch(why);
});

it('asks npm for what the program runs on, without a host of its own', () => {
  const folder = mkdtempSync(join(tmpdir(), 'audit-'));
  const npm = join(folder, 'npm.mjs');
  writeFileSync(
    npm,
    'console.log(JSON.stringify({ vulnerabilities: { x: { name: process.argv.slice(2).join(" "), severity: "high", range: "*", via: [] } } }));',
  );
  const found = audit([process.execPath, npm]);
  expect(found.ran && found.grave[0]).toMatch(/^audit --omit=dev --json /);
  expect(audit([join(folder, 'none')])).toEqual({ ran: false, why: 'npm gave no answer' });
  rmSync(folder, { recursive: true });
});
