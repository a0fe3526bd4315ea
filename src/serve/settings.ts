/** Where the store lies and which port is used: from the environment, checked once. */
import { join, resolve } from 'node:path';

/** Where the server listens when PORT says nothing, no unit. */
export const DEFAULT_PORT = 4280;

export interface Settings {
  /** 0 = any free port. */
  readonly port: number;
  /** Path of the store's file. */
  readonly storeFile: string;
  /** Address of a PostgreSQL store to use instead of the file; null for none. */
  readonly databaseUrl: string | null;
  /** Folder of the machine files written here. */
  readonly ownMachinesFolder: string;
  /** Folder of the photographs. */
  readonly photosFolder: string;
  /** Where devices that were let in are remembered, and the folder of this garage's certificates. */
  readonly devicesFile: string;
  readonly certificatesFolder: string;
  /** Port of the encrypted door for other devices; 0 = any. */
  readonly sharePort: number;
  /** Whether browsers may keep the app; CHARGEWRIGHT_OFFLINE=off makes them let go of it. */
  readonly offline: boolean;
}

export type SettingsRead =
  | { readonly ok: true; readonly settings: Settings }
  | { readonly ok: false; readonly why: string };

/** Reads PORT, CHARGEWRIGHT_HOME and the others; `here` is the folder the program was started in. */
export function readSettings(env: Readonly<Record<string, string | undefined>>, here: string): SettingsRead {
  const said = env.PORT?.trim() ?? '';
  const port = said === '' ? DEFAULT_PORT : Number(said);
  if (!/^\d*$/.test(said) || port > 65_535) {
    const why = `PORT must be a whole number from 0 to 65535, but it is ${JSON.stringify(said.slice(0, 40))}. Try: PORT=${DEFAULT_PORT + 1} npm start`;
    return { ok: false, why };
  }
  const kept = env.CHARGEWRIGHT_OFFLINE?.trim() ?? '';
  if (!['', 'on', 'off'].includes(kept)) {
    const why = `CHARGEWRIGHT_OFFLINE must be on or off, but it is ${JSON.stringify(kept.slice(0, 40))}. Try: CHARGEWRIGHT_OFFLINE=off npm start`;
    return { ok: false, why };
  }
  const databaseUrl = env.DATABASE_URL?.trim() || null;
  // What was written is not repeated: a password may be in it.
  if (databaseUrl !== null && !/^postgres(?:ql)?:\/\//.test(databaseUrl)) {
    const why =
      'DATABASE_URL must be the address of a PostgreSQL database, as in postgres://user@host/garage; leave it out to keep jobs in a file here.';
    return { ok: false, why };
  }
  const home = env.CHARGEWRIGHT_HOME?.trim()
    ? resolve(here, env.CHARGEWRIGHT_HOME.trim())
    : join(here, '.chargewright');
  const photos = env.CHARGEWRIGHT_PHOTOS?.trim() || null;
  const storeFile = join(home, 'garage.sqlite');
  return {
    ok: true,
    settings: {
      port,
      storeFile,
      databaseUrl,
      ownMachinesFolder: join(home, 'machines'),
      photosFolder:
        photos !== null
          ? resolve(here, photos)
          : databaseUrl === null
            ? `${storeFile}.photos`
            : join(home, 'photos'),
      devicesFile: join(home, 'devices.json'),
      certificatesFolder: join(home, 'certificates'),
      // Two after it are asked for at most: the door and its landing page.
      sharePort: port === 0 ? 0 : Math.min(port + 1, 65_534),
      offline: kept !== 'off',
    },
  };
}
