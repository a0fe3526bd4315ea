/**
 * Room `joint`: bolted joints. Threads and their stress areas, preload from torque as an interval, stripping of the
 * tapped part, the setting of a wrench with an adapter, tightening order, locker and sealant clocks, break-loose.
 * Every result that rests on friction is an interval; the bike's own book wins over all of them.
 */
export {};
