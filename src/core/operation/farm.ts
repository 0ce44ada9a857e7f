/**
 * What the farm told us about itself, in SI units. Built only by `edges/config` from the farm file.
 */
import type { Band, CropName } from '#core/science/crop.ts'
import type { Place } from '#core/units/weather.ts'

export type UnitSystem = 'us' | 'metric'
export type Language = 'en' | 'es'
export type SoilTexture =
  | 'sand'
  | 'loamy-sand'
  | 'sandy-loam'
  | 'loam'
  | 'silt-loam'
  | 'silt'
  | 'silty-clay-loam'
  | 'silty-clay'
  | 'clay'
export type Drainage = 'well' | 'moderate' | 'poor' | 'tiled'

export interface Farm {
  readonly id: string
  readonly name: string
  readonly timeZone: string
  readonly units: UnitSystem
  readonly language: Language
  readonly home: Place
  readonly fields: readonly Field[]
  readonly outfits: readonly Outfit[]
  readonly buyers: readonly Buyer[]
  readonly people: readonly Person[]
  readonly fireRules: FireRules
  readonly morning: MorningRule
  /** Absent = as is usual. */
  readonly planning?: PlanningRule
  /** Pictures of the ground for the map; absent = none. */
  readonly baseMap?: BaseMap
  /** Weather suppliers in the order they are asked; the first that answers in time is believed. */
  readonly weather: readonly WeatherSource[]
}

/** Map tiles of a server that the farm chose: XYZ in Web Mercator. */
export interface BaseMap {
  /** With `{z}`, `{x}` and `{y}` in it, each once. */
  readonly tileUrl: string
  /** Whom the map is owed to; shown with it. */
  readonly credit: string
  readonly deepestZoom: number
}

/** `recorded` replays a weather file; `open-aggregator` is listed only if the farm accepted its terms. */
export type WeatherSource =
  | { readonly kind: 'national-us' }
  | { readonly kind: 'global' }
  /** The past of any place, of no use for today. */
  | { readonly kind: 'global-history' }
  | {
      readonly kind: 'open-aggregator'
      /** Address of a server of one's own, ending in a slash; the public hosts when absent. */
      readonly server?: string
    }
  | {
      readonly kind: 'recorded'
      readonly file: string
      /** File with earlier years of the place. */
      readonly years?: string
      /** Local time at which the demo's clock starts. */
      readonly clock: Temporal.PlainDateTime
      readonly credit: string
      readonly licence: string
    }

export interface Field {
  readonly id: string
  readonly name: string
  readonly crop: CropName
  readonly areaHa: number
  readonly centre: { readonly latDeg: number; readonly lonDeg: number }
  /**
   * Closed rings of [lon, lat], the first an exterior one. Exterior rings run counterclockwise, holes clockwise
   * (RFC 7946 right-hand rule), so a field in several pieces is a list with several counterclockwise rings.
   */
  readonly boundary?: readonly (readonly (readonly [number, number])[])[]
  readonly plantedOn: Temporal.PlainDate
  /** Soybean maturity group, 00 = -1, 0, 1 ... 8, with decimals. */
  readonly maturityGroup?: number
  /** Corn relative maturity [days]. */
  readonly relativeMaturity?: number
  /** Date the manager saw the crop physiologically mature, if he noted it. */
  readonly maturitySeenOn?: Temporal.PlainDate
  /** Date by which the whole field was cut, where the farm file already says so: nothing is left to plan. */
  readonly cutOn?: Temporal.PlainDate
  /** Bearing of the rows, 0-180 clockwise from north [deg]. */
  readonly rowBearingDeg?: number
  readonly soil: {
    readonly texture: SoilTexture
    readonly drainage: Drainage
    /** Shift of the water at which the ground still carries, as share of field capacity [-0.3 to 0.3]. */
    readonly carryShift?: number
  }
  readonly followsWheat: boolean
  /** Usual yield at the buyer's standard moisture [t/ha]. */
  readonly usualYieldTHa: number
  readonly band: Band
  readonly patches: readonly Patch[]
  readonly buyerId: string
  /** Road distance from the field to its buyer [km]. */
  readonly haulKm: number
}

export interface Patch {
  readonly id: string
  readonly name: string
  /** Share of the field's area, 0-1. */
  readonly share: number
  /** Closed ring of [lon, lat], where the patch was drawn. */
  readonly outline?: readonly (readonly [number, number])[]
  readonly kind: 'green' | 'wet-hole'
  /** Days by which the patch ripens after the rest of the field [d]. */
  readonly laterDays: number
  /** Whether the crew leaves it standing or cuts through it. */
  readonly handling: 'leave' | 'blend'
}

export interface Outfit {
  readonly id: string
  readonly name: string
  readonly combines: readonly Combine[]
  readonly carts: readonly Cart[]
  readonly trucks: readonly Truck[]
  readonly crewHours: { readonly startMinute: number; readonly endMinute: number }
  /** ISO weekdays (1 = Monday) on which the crew is off. */
  readonly daysOff: readonly number[]
}

export interface Combine {
  readonly name: string
  readonly tankL: number
  readonly unloadLPerS: number
  /** Heads by crop group: width cut and usual speed. */
  readonly heads: readonly Head[]
}

export interface Head {
  readonly crops: readonly CropName[]
  readonly widthM: number
  readonly speedMs: number
  /** Field efficiency, 0-1. */
  readonly efficiency: number
}

export interface Cart {
  readonly name: string
  readonly capacityL: number
  readonly unloadLPerS: number
}

export interface Truck {
  readonly name: string
  readonly capacityL: number
  readonly roadSpeedMs: number
}

export interface Buyer {
  readonly id: string
  readonly name: string
  readonly hours: { readonly openMinute: number; readonly closeMinute: number }
  readonly closedOn: readonly number[]
  /** Most he takes in a day [t]; absent = no limit given. */
  readonly dailyT?: number
  /** Most his pit takes in an hour [t/h]; absent = no limit given. */
  readonly pitTPerH?: number
  /** Dryer that wet grain has to pass; absent = wet grain is taken as dry grain is. */
  readonly dryer?: Dryer
  /** Minutes a truck spends there: queue, probe, weigh, dump. */
  readonly turnaroundMin: number
  readonly terms: readonly BuyerTerms[]
}

export interface Dryer {
  /** Grain times the points of moisture taken out of it, by the hour [t x point / h]. */
  readonly tPointsPerH: number
  /** What may stand wet beside it [t]. */
  readonly wetBinT: number
}

/** How one crop is paid. Prices per tonne at standard moisture. */
export interface BuyerTerms {
  readonly crop: CropName
  readonly pricePerT: number
  readonly standardMoistureWb: number
  /** Weight deducted per point above standard [% per point]. */
  readonly shrinkPerPoint: number
  /** Price deducted per point above standard, as share of the price per point [% per point]. */
  readonly dockPerPoint: number
  /** Drying charge per wet tonne and point removed. */
  readonly dryingPerTPoint: number
  /** Loads wetter than this are refused [% wet basis]. */
  readonly refuseAboveWb?: number
}

export interface Person {
  readonly id: string
  readonly name: string
  readonly role: 'owner' | 'crew' | 'planner'
  readonly language: Language
  readonly email?: string
  readonly quietHours?: { readonly startMinute: number; readonly endMinute: number }
}

/** The local rule as the farm set it; a local ban or warning always outranks it. */
export interface FireRules {
  readonly careGustMs: number
  readonly careWindMs: number
  readonly careRelHumidity: number
  readonly careGrassIndex: number
  readonly stopGrassIndex: number
  /** A ban the farm was told of, by date. */
  readonly bans: readonly {
    readonly from: Temporal.PlainDate
    readonly to: Temporal.PlainDate
    readonly text: string
  }[]
}

/** What every plan of a farm keeps to. */
export interface PlanningRule {
  /** Outfits that fit in a field at once. */
  readonly outfitsPerField: number
  /** Fields an outfit visits in a day at most. */
  readonly fieldsPerDay: number
  /** How much the bad end counts: `weight` 0-1 against the mean, `tail` the share of outcomes that makes it. */
  readonly aversion?: { readonly weight: number; readonly tail: number }
}

export interface MorningRule {
  /** Local time of the morning message, minutes after midnight; with `beforeRun` the latest. */
  readonly minute: number
  /** The message comes so long before the day's first run, but not before this hour. */
  readonly beforeRun?: { readonly leadMinutes: number; readonly earliestMinute: number }
  /** Local time of the planner's outlook on tomorrow, minutes after midnight; absent where none is wanted. */
  readonly eveningMinute?: number
  /** Older weather than this names no field [h]. */
  readonly weatherAgeLimitH: number
}
