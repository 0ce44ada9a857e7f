/**
 * Lengths on the globe. Typed 2026-11-25. A nautical mile of 1,852 m is close to a minute of latitude by its definition
 * (1929): 60 of them make a degree, 111.12 km. A degree of longitude at 60 degrees is half of one at the equator.
 */
const DEGREE_KM = 60 * 1.852

export const DEGREE_LENGTHS = [
  {
    what: 'a degree of latitude',
    from: { latDeg: 40, lonDeg: -88 },
    to: { latDeg: 41, lonDeg: -88 },
    km: DEGREE_KM,
    withinKm: 0.2,
  },
  {
    what: 'a degree of longitude on the equator',
    from: { latDeg: 0, lonDeg: 10 },
    to: { latDeg: 0, lonDeg: 11 },
    km: DEGREE_KM,
    withinKm: 0.2,
  },
  {
    what: 'a degree of longitude at 60 N',
    from: { latDeg: 60, lonDeg: 10 },
    to: { latDeg: 60, lonDeg: 11 },
    km: DEGREE_KM / 2,
    withinKm: 0.2,
  },
  {
    what: 'half way round',
    from: { latDeg: 0, lonDeg: 0 },
    to: { latDeg: 0, lonDeg: 180 },
    km: 180 * DEGREE_KM,
    withinKm: 25,
  },
] as const
