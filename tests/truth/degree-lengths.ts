/**
 * Sizes of the WGS 84 ellipsoid, for the area of field outlines. Typed 2026-11-25.
 *
 * Length of a degree of latitude and of longitude [m] at a latitude: the series printed in "Geographic coordinate
 * system", Wikipedia, section "Length of a degree" (latitude series confirmed on a mirror of that page 2026-11-25; the
 * longitude series from memory). Their product is the area of a small cell of the grid.
 */
const cosOf = (degrees: number) => Math.cos((degrees * Math.PI) / 180)

export const latitudeDegreeM = (lat: number): number =>
  111132.92 - 559.82 * cosOf(2 * lat) + 1.175 * cosOf(4 * lat) - 0.0023 * cosOf(6 * lat)

export const longitudeDegreeM = (lat: number): number =>
  111412.84 * cosOf(lat) - 93.5 * cosOf(3 * lat) + 0.118 * cosOf(5 * lat)

/** Table of the same page [km]: latitude, degree of latitude, degree of longitude. From memory. */
export const DEGREE_TABLE_KM: readonly (readonly [lat: number, latDegree: number, lonDegree: number])[] = [
  [0, 110.574, 111.32],
  [15, 110.649, 107.55],
  [30, 110.852, 96.486],
  [45, 111.132, 78.847],
  [60, 111.412, 55.8],
]

/**
 * A cell of 1 by 1 degree from the equator: about 12,309 km2 by a geodesic library's ellipsoidal series (documentation
 * of the Rust crate geometry-strategy 0.0.8, area.rs, quoting Boost.Geometry; confirmed 2026-11-25).
 */
export const EQUATOR_CELL_KM2 = 12309

/** Surface of the whole ellipsoid: 5.1007e14 m2 (MathWorks, wgs84Ellipsoid, confirmed); further digits from memory. */
export const EARTH_KM2 = 510_065_621.724
