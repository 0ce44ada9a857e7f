/**
 * Sunlight of one day as the hourly service of NASA POWER gives it, W/m2 by hour under the stamps 00 to 23 UTC of
 * 2025-02-02, at 44.76 N 7.64 E (705.88 m, the service's own elevation of the cell).
 *
 * Source: pvlib-python, tests/iotools/test_nasa_power.py (BSD 3-Clause), which holds its client against these figures;
 * read there on 2026-11-25. Confirmed by that file, not asked of the service itself.
 */
export const POWER_SUNLIGHT = {
  place: { latDeg: 44.76, lonDeg: 7.64, elevationM: 705.88 },
  from: '2025-02-02T00:00Z',
  solarWm2: [
    0, 0, 0, 0, 0, 0, 0, 50.25, 184.2, 281.55, 368.3, 406.48, 386.45, 316.05, 210.1, 109.05, 12.9, 0, 0, 0, 0, 0, 0, 0,
  ],
} as const
