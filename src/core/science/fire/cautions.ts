/**
 * The usual cautions against fire at harvest: codes and where each is said. The wording lives in the messages.
 *
 * Facts of extension services, none of them a substitute for the local rules, the fire authority or the machine's
 * manual.
 */
export interface FireCaution {
  readonly code: FireCautionCode
  /** `always`: every harvest day. `care`: from the care level on. `fire`: once something burns. */
  readonly when: 'always' | 'care' | 'fire'
  readonly source: string
}

export const FIRE_CAUTION_CODES = [
  'local-rules-first',
  'clean-engine-bay-daily',
  'extinguishers-ready',
  'cool-before-refuel',
  'park-off-dry-plants',
  'check-bearings',
  'blow-off-every-two-hours',
  'disc-ready',
  'water-ready',
  'watch-for-smoulder',
  'walk-away-and-call',
] as const
export type FireCautionCode = (typeof FIRE_CAUTION_CODES)[number]

/** Rest before refuelling [min] (North Dakota State University Extension AE1991, 2021). */
export const COOL_BEFORE_REFUEL_MIN = 15
/** Time a smoulder may go unseen [min], "or more" (Iowa State University Extension). */
export const SMOULDER_UNSEEN_MIN = 30
/** Extinguishers, at least this many (University of Wisconsin Extension 2016). */
export const EXTINGUISHERS = 2
/** Size of each, dry chemical ABC [kg], 10 lb. */
export const EXTINGUISHER_KG = 4.5
/** Share of combine fires that begin in the engine bay (Oregon State University Extension EM 9326, 2021). */
export const ENGINE_BAY_SHARE = 0.77

export const FIRE_CAUTIONS: readonly FireCaution[] = [
  {
    code: 'local-rules-first',
    when: 'always',
    source: 'South Australian Grain Harvesting Code of Practice; US National Weather Service red flag pages',
  },
  {
    code: 'clean-engine-bay-daily',
    when: 'always',
    source: 'North Dakota State University Extension AE1991 (2021); Oregon State University Extension EM 9326 (2021)',
  },
  {
    code: 'extinguishers-ready',
    when: 'always',
    source: 'University of Wisconsin Extension 2016; Iowa State University Extension 2012',
  },
  { code: 'cool-before-refuel', when: 'always', source: 'North Dakota State University Extension AE1991 (2021)' },
  { code: 'park-off-dry-plants', when: 'always', source: 'North Dakota State University Extension AE1991 (2021)' },
  { code: 'check-bearings', when: 'always', source: 'University of Nebraska-Lincoln Extension 2022' },
  { code: 'blow-off-every-two-hours', when: 'care', source: 'Iowa State University Extension 2021' },
  { code: 'disc-ready', when: 'care', source: 'Iowa State University Extension 2021' },
  {
    code: 'water-ready',
    when: 'care',
    source: 'South Australian Grain Harvesting Code of Practice (250 L or more in the paddock)',
  },
  { code: 'watch-for-smoulder', when: 'care', source: 'Iowa State University Extension' },
  { code: 'walk-away-and-call', when: 'fire', source: 'University of Wisconsin Extension 2016' },
]
