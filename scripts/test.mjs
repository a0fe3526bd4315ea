/**
 * `npm test`: installs what is missing, finds a browser, then lints, compiles, bundles and runs every suite. The last
 * line of stdout is `N passed, N failed`; lint, compiling and bundling count as one check each. Ends with 1 when
 * anything failed. What follows on the command line goes to Vitest: `npm test -- test/job`.
 */
import { requireNode } from './node-version.mjs';

requireNode();
test();

async function test() {
  const tally = { passed: 0, failed: 0, failures: [] };
  const check = (name, ok, why = 'see above') => {
    if (ok) tally.passed += 1;
    else {
      tally.failed += 1;
      tally.failures.push(`${name}: ${why}`);
    }
    console.log(`${ok ? 'passed' : 'FAILED'}  ${name}`);
  };

  const { Stop, inCi, runTool } = await import('./run.mjs');
  try {
    const { ensureInstalled } = await import('./install.mjs');
    ensureInstalled();
    const { findChromium } = await import('./chromium.mjs');
    const browser = findChromium();
    if (inCi && browser === null) {
      check(
        'a browser for the end-to-end tests',
        false,
        'CI is set and no Chromium was found; install one or name it in CHROMIUM',
      );
    }

    const { findCertutil } = await import('./certutil.mjs');
    const certutil = browser === null ? null : findCertutil();
    const { findFfmpeg } = await import('./ffmpeg.mjs');
    const ffmpeg = findFfmpeg();
    if (inCi && ffmpeg === null) {
      check(
        'ffmpeg for the tests of chapters',
        false,
        "CI is set and no ffmpeg was found; install Debian's package ffmpeg",
      );
    }

    const { bundle, compile } = await import('./build.mjs');
    check('lint and format', runTool('@biomejs/biome/bin/biome', ['check', '--diagnostic-level=error', '.']));
    const { audit, tellAudit } = await import('./audit.mjs');
    const faults = audit();
    if (faults.ran)
      check(
        'no grave fault is known in the packages',
        faults.grave.length === 0,
        faults.grave.join('\n      '),
      );
    check('types', compile());
    check('app bundle', bundle());

    const { runSuites } = await import('./suites.mjs');
    const { startPostgres } = await import('./postgres.mjs');
    const postgres = startPostgres();
    if (inCi && postgres === null) {
      check(
        'a PostgreSQL server for the tests of its store',
        false,
        "CI is set and none could be started; install Debian's package postgresql",
      );
    }
    let suites;
    try {
      suites = runSuites({
        browser,
        certutil,
        postgres: postgres?.url ?? null,
        args: process.argv.slice(2),
      });
    } finally {
      postgres?.stop();
    }
    tally.passed += suites.passed;
    tally.failed += suites.failed;
    tally.failures.push(...suites.failures);
    for (const line of suites.table) console.log(line);
    if (suites.skipped.length > 0) {
      console.log(`\nNot run (${suites.skipped.length}):`);
      for (const name of suites.skipped) console.log(`  ${name}`);
    }
    if (!faults.ran) console.log(`\n${tellAudit(faults).join('\n')}`);
    if (postgres === null)
      console.log(
        "\nNot run: the tests of the PostgreSQL store. No server could be started; install Debian's package postgresql.",
      );
    if (browser !== null && certutil === null)
      console.log(
        "\nNot run: the test of a device that trusts the garage's authority. No certutil was found; install Debian's package libnss3-tools.",
      );
    if (ffmpeg === null)
      console.log(
        "\nNot run: the tests that carry chapters through ffmpeg. None was found; install Debian's package ffmpeg.",
      );
    if (browser === null)
      console.log(
        '\nNot run: the tests that need a browser. No Chromium was found; install one or name it in CHROMIUM.',
      );
  } catch (error) {
    check('set-up', false, error instanceof Stop ? error.message : error.stack);
  }

  if (tally.failures.length > 0) {
    console.log(`\nFailed (${tally.failures.length}):`);
    for (const failure of tally.failures) console.log(`  ${failure}`);
  }
  console.log(`\n${tally.passed} passed, ${tally.failed} failed`);
  process.exitCode = tally.failed > 0 ? 1 : 0;
}
