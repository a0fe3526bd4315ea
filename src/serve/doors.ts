/** The two doors of a garage: this computer's own, and the encrypted one for devices that were let in. */
import type { Hono } from 'hono';
import { type DoorOf, type Garage, openApp, openGarageOf, type Parts } from './app.ts';
import type { Devices } from './devices.ts';
import { onlyFromHere, onlyLetIn } from './guard.ts';
import { addDeviceRoutes, addPairRoute, isLetIn } from './pairing.ts';
import { openShare, type Share } from './share.ts';

export interface Doors {
  /** The door of this computer. */
  readonly here: Hono;
  /** The one for others, shut to begin with. */
  readonly share: Share;
  /** Lets the pages that listen go and shuts the other door, so that the program can stop. */
  readonly close: () => Promise<void>;
}

export interface DoorParts extends Parts {
  readonly devices: Devices;
  /** Folder of the certificates. */
  readonly certificatesFolder: string;
  /** Port of the encrypted door; 0 = any. */
  readonly sharePort: number;
  readonly addresses?: () => readonly string[];
}

export function openDoors(parts: DoorParts): Doors {
  const { devices, certificatesFolder, sharePort, addresses } = parts;
  const garage: Garage = openGarageOf(parts.store);
  const share = openShare({
    folder: certificatesFolder,
    port: sharePort,
    app: (isOurs) =>
      openApp(parts, garage, {
        may: onlyLetIn(isOurs, (c) => isLetIn(c, devices)),
        add: (app) => addPairRoute(app, devices),
        verbs: { '/api/pair': 'POST' },
      }),
    ...(addresses ? { addresses } : {}),
  });
  const own: DoorOf = {
    may: [onlyFromHere],
    add: (app) => addDeviceRoutes(app, devices, share),
    verbs: {
      '/api/devices': 'GET, HEAD',
      '/api/devices/door': 'POST',
      '/api/devices/invite': 'POST',
      '/api/devices/:id/out': 'POST',
    },
  };
  return {
    here: openApp(parts, garage, own),
    share,
    close: async () => {
      garage.hub.close();
      await share.shut();
    },
  };
}
