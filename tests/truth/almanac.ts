/**
 * Published times of the sun. Typed in 2026-11-25.
 *
 * Rows of the U.S. Naval Observatory (aa.usno.navy.mil, whole minutes), second-hand through public test files that cite
 * its pages; none was opened at the source. Times are UTC.
 */
export interface SunRow {
  readonly place: string
  readonly latDeg: number
  readonly lonDeg: number
  readonly timeZone: string
  readonly date: string
  readonly rise?: string
  readonly set?: string
  readonly civilDawn?: string
  readonly civilDusk?: string
}

export const USNO_ROWS: readonly SunRow[] = [
  {
    place: 'Raleigh',
    latDeg: 35 + 47 / 60,
    lonDeg: -(78 + 39 / 60),
    timeZone: 'America/New_York',
    date: '2015-07-12',
    civilDawn: '2015-07-12T09:38Z',
    rise: '2015-07-12T10:08Z',
    set: '2015-07-13T00:32Z',
    civilDusk: '2015-07-13T01:02Z',
  },
  {
    place: 'Zurich, longest day',
    latDeg: 47.3769,
    lonDeg: 8.5417,
    timeZone: 'Europe/Zurich',
    date: '2026-06-21',
    rise: '2026-06-21T03:29Z',
    set: '2026-06-21T19:26Z',
  },
  {
    place: 'Zurich, shortest day',
    latDeg: 47.3769,
    lonDeg: 8.5417,
    timeZone: 'Europe/Zurich',
    date: '2026-12-21',
    rise: '2026-12-21T07:10Z',
    set: '2026-12-21T15:38Z',
  },
  {
    place: 'Minneapolis',
    latDeg: 44.9778,
    lonDeg: -93.265,
    timeZone: 'America/Chicago',
    date: '2026-10-01',
    rise: '2026-10-01T12:11Z',
    set: '2026-10-01T23:53Z',
  },
  {
    place: '47 N 8 E',
    latDeg: 47,
    lonDeg: 8,
    timeZone: 'Europe/Zurich',
    date: '2024-06-21',
    rise: '2024-06-21T03:33Z',
    set: '2024-06-21T19:27Z',
  },
  {
    place: '34 S 151 E',
    latDeg: -34,
    lonDeg: 151,
    timeZone: 'Australia/Sydney',
    date: '2024-12-22',
    rise: '2024-12-21T18:42Z',
    set: '2024-12-22T09:07Z',
  },
  {
    place: '60 N 25 E, equinox',
    latDeg: 60,
    lonDeg: 25,
    timeZone: 'Europe/Helsinki',
    date: '2024-03-20',
    rise: '2024-03-20T04:21Z',
    set: '2024-03-20T16:35Z',
  },
  {
    place: '60 N 25 E, day after',
    latDeg: 60,
    lonDeg: 25,
    timeZone: 'Europe/Helsinki',
    date: '2024-03-21',
    rise: '2024-03-21T04:18Z',
    set: '2024-03-21T16:38Z',
  },
  {
    place: 'Hawaii',
    latDeg: 20 + 7 / 60,
    lonDeg: -(155 + 34 / 60),
    timeZone: 'Pacific/Honolulu',
    date: '2015-04-02',
    rise: '2015-04-02T16:15Z',
  },
  {
    place: 'Hawaii, day after',
    latDeg: 20 + 7 / 60,
    lonDeg: -(155 + 34 / 60),
    timeZone: 'Pacific/Honolulu',
    date: '2015-04-03',
    rise: '2015-04-03T16:14Z',
  },
]

/** USNO, 70 N 20 E: no rise and no set. */
export const POLAR_ROWS = [
  { latDeg: 70, lonDeg: 20, date: '2024-06-21', always: 'up' },
  { latDeg: 70, lonDeg: 20, date: '2024-12-21', always: 'down' },
] as const

/**
 * Reda I., Andreas A. 2004, Solar Position Algorithm, NREL/TP-560-34302, table A5.1: Golden, 17 October 2003, UTC-7.
 * Sun at 12:30:30; pressure 820 hPa, 1830 m. Second-hand.
 */
export const NREL_GOLDEN = {
  latDeg: 39.742476,
  lonDeg: -105.1786,
  date: '2003-10-17',
  timeZone: 'America/Denver',
  instant: '2003-10-17T12:30:30-07:00',
  zenithDeg: 50.11162,
  azimuthDeg: 194.34024,
  rise: '2003-10-17T06:12:43-07:00',
  /** Doubtful as quoted (17:20:19): the NOAA formulas give 17:18:50. Not used as an expected value. */
  doubtfulSet: '2003-10-17T17:20:19-07:00',
} as const
