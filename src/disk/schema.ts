/** Tables of the SQLite store, and the steps that lead from one version to the next. */
import type { Database } from 'better-sqlite3';
import type { Generated } from 'kysely';

/** Marks a SQLite file as ours, no unit: "Chgw" in its header at byte 68, see the SQLite file format, §1.3. */
export const APPLICATION_ID = 0x43686777;

export interface EventTable {
  readonly seq: Generated<number>;
  readonly id: string;
  readonly job: string;
  readonly type: string;
  /** The event in its canonical text. */
  readonly body: string;
}

export interface Tables {
  readonly event: EventTable;
}

/**
 * Step n leads from version n to n + 1; a step that has been released is never edited again.
 * AUTOINCREMENT keeps places from being given twice even after the last row is gone (rule 6), the triggers hold off
 * whoever opens the file with another tool (rule 7). STRICT needs SQLite 3.37, which comes bundled.
 */
const STEPS: readonly string[] = [
  `CREATE TABLE event (
     seq INTEGER PRIMARY KEY AUTOINCREMENT,
     id TEXT NOT NULL UNIQUE,
     job TEXT NOT NULL,
     type TEXT NOT NULL,
     body TEXT NOT NULL CHECK (json_valid(body))
   ) STRICT;
   CREATE INDEX event_by_job ON event (job, seq);
   CREATE INDEX event_by_type ON event (type, job);
   CREATE TRIGGER event_is_not_changed BEFORE UPDATE ON event
     BEGIN SELECT RAISE(ABORT, 'events are never changed: append another'); END;
   CREATE TRIGGER event_is_not_removed BEFORE DELETE ON event
     BEGIN SELECT RAISE(ABORT, 'events are never removed: append a withdrawal'); END;`,
];

/** The version this program writes and the greatest it reads. */
export const VERSION = STEPS.length;

/** Version of the tables in an open store, no unit; 0 = none yet. */
export function versionOf(db: Database): number {
  return Number(db.pragma('user_version', { simple: true }));
}

/** Brings the tables to the present version: all steps or none. Safe when two programs start at once. */
export function migrate(db: Database): void {
  db.transaction(() => {
    for (let version = versionOf(db); version < VERSION; version += 1) {
      db.exec(STEPS[version]!);
      db.pragma(`user_version = ${version + 1}`);
    }
  }).immediate();
}
