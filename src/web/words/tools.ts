/** Tools as they are called on screen. */
import type { Tools } from '../../job/event.ts';
import type { Tool } from '../../reading/kinds.ts';

export const DRAWER: readonly { readonly id: keyof Tools; readonly title: string; readonly use: string }[] = [
  { id: 'clamp', title: 'Clamp meter, DC and AC', use: 'amps without opening a lead' },
  { id: 'loadTester', title: 'Battery load tester', use: 'half the cranking amps for 15 s' },
  { id: 'hydrometer', title: 'Hydrometer', use: 'flooded batteries only' },
  { id: 'supply', title: 'Current-limited supply', use: '1 A through a winding' },
];

export const TOOL_TITLES: Readonly<Record<Tool, string>> = {
  multimeter: 'multimeter',
  'clamp-meter': 'clamp meter',
  'load-tester': 'load tester',
  hydrometer: 'hydrometer',
  eyes: 'eyes and nose',
  supply: 'current-limited supply',
};

/** Which drawer entry a reading's tool needs; null for what everybody has. */
export function drawerOf(tool: Tool): keyof Tools | null {
  switch (tool) {
    case 'clamp-meter':
      return 'clamp';
    case 'load-tester':
      return 'loadTester';
    case 'hydrometer':
      return 'hydrometer';
    case 'supply':
      return 'supply';
    case 'multimeter':
    case 'eyes':
      return null;
  }
}
