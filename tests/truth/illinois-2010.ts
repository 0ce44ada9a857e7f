/**
 * Autumn 2010 in Illinois, to recognise the demo's weather by. Typed 2026-11-25.
 *
 * Statewide means of the Illinois State Water Survey: September, text of 8 October 2010 at archives.lincolndailynews.com
 * (rain 4.0 inches, 0.8 above normal; "far southern" and south-eastern counties in drought); October, "October Was Warm
 * and Dry in Illinois", stateclimatologist.web.illinois.edu (56.2 deg F, 1.6 above normal; 1.4 inches; 20th driest).
 * Both confirmed 2026-11-25. A point in the middle of the state differs from the whole: a degree or two Fahrenheit, and
 * in rain by a good part of the total.
 */
export const SEPTEMBER_2010 = { rainIn: 4.0 } as const
export const OCTOBER_2010 = { meanTempF: 56.2, rainIn: 1.4 } as const

/** Highest solar radiation on level ground, about 1000 to 1100 W/m2 under clear sky at sea level: common practice. */
export const CLEAR_SKY_LIMIT_WM2 = 1100
