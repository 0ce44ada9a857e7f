/**
 * One slip to a row: what is replaced in the base farm, by what, a text of the line it must be told on, and the path,
 * value, problem and cure told. `⏎` is a line break, a leading `~` a space, a value ending in `…` only its beginning.
 */
const TABLE = `
# Words
units: us | units: imperial | imperial | units | imperial | not one of the words | us or metric
language: en | language: de | language: de | language | de | not one of the words | en (English) or es
crop: soybean⏎ | crop: soybeans⏎ | crop: soybeans | fields[Alpha].crop | soybeans | not one of | soybean, corn
texture: loam | texture: gumbo | gumbo | fields[Alpha].soil.texture | gumbo | not one of | silty-clay
drainage: tiled | drainage: tile | drainage: tile | fields[Alpha].soil.drainage | tile | not one of | tiled
kind: green | kind: yellow | yellow | fields[Alpha].patches[Swale].kind | yellow | not one of | wet-hole
handling: blend | handling: mow | mow | fields[Alpha].patches[Hole].handling | mow | not one of | leave:
role: crew | role: boss | boss | people[Bo].role | boss | not one of | planner: fixes dates
[saturday, sunday] | [sat] | [sat] | buyers[River House].closed[#1] | sat | not one of | saturday
use: global | use: globe | globe | weather[#2].use | globe | not written | national-us, global

# Numbers
width: 35 | width: 35 ft | 35 ft | outfits[Outfit].combines[Red].heads[#1].width | 35 ft | not a number | Write the bare number 35. Width it cuts. A number in ft, 4 to 80
width: 35 | width: 350 | 350 | outfits[Outfit].combines[Red].heads[#1].width | 350 | above 80 | in ft, 4 to 80
speed: 4.5 | speed: 0.1 | speed: 0.1 | outfits[Outfit].combines[Red].heads[#2].speed | 0.1 | below 0.5 | mph
efficiency: 0.7 } | efficiency: 70 } | efficiency: 70 | outfits[Outfit].combines[Red].heads[#1].efficiency | 70 | above 1 | 0.7 is 70 percent
tank: 300 | tank: 10000 | tank: 10000 | outfits[Outfit].combines[Red].tank | 10000 | above 800 | in bu, 50 to 800
unload: 8 | unload: 500 | unload: 500 | outfits[Outfit].carts[Cart].unload | 500 | above 30 | bu/s
count: 2 | count: 2.5 | count: 2.5 | outfits[Outfit].combines[Red].count | 2.5 | not a whole number | 1 to 50
share: 0.1, | share: 10, | share: 10 | fields[Alpha].patches[Swale].share | 10 | above 1 | 0.08 is 8 percent
usual_yield: 54 | usual_yield: -4 | usual_yield: -4 | fields[Alpha].usual_yield | -4 | below 1 | bu/acre
usual_yield: 54 | usual_yield: .nan | .nan | fields[Alpha].usual_yield | .nan | not a number | bu/acre
haul: 6 | haul: .inf | .inf | fields[Alpha].haul | .inf | not a number | 0 to 500
haul: 6 | haul: | haul: | fields[Alpha].haul |  | is empty | in mi, 0 to 500
maturity_group: 2.7 | maturity_group: 12 | maturity_group: 12 | fields[Alpha].maturity_group | 12 | above 8.9 | 00 to 8.9
relative_maturity: 111 | relative_maturity: 11 | relative_maturity: 11 | fields[Beta].relative_maturity | 11 | below 65 | 65 to 130
rows: 10 | rows: north | rows: north | fields[Alpha].rows | north | not a number | clockwise from north
lat: 40.0, | lat: 400, | lat: 400 | home.lat | 400 | above 72 | -66 to 72
price: 10, | price: 1000, | price: 1000 | buyers[River House].pays[#1].price | 1000 | above 200 | per bu
moisture: 15 | moisture: 0.15 | 0.15 | buyers[Hill House].pays[#1].moisture | 0.15 | below 1 | Percent moisture, wet basis
turnaround: 20 | turnaround: 20 min | 20 min | buyers[River House].turnaround | 20 min | not a number | bare number 20
humidity: 25 | humidity: 0.25 | 0.25 | fire.care.humidity | 0.25 | below 1 | in percent, 1 to 60
weather_age_limit: 10 | weather_age_limit: 500 | 500 | morning.weather_age_limit | 500 | above 72 | hours

at: "05:15", weather_age_limit: 10 }⏎ | at: "05:15" }⏎planning: { fields_per_day: 0 }⏎ | planning: | planning.fields_per_day | 0 | below 1 | 1 to 20
at: "05:15", weather_age_limit: 10 }⏎ | at: "05:15" }⏎planning: { caution: { weight: 30 } }⏎ | planning: | planning.caution.weight | 30 | above 1 | 0 to 1

daily_limit: 40000 | dryer: { takes: 800, points: 0 } | dryer: { | buyers[River House].dryer.points | 0 | below 1 | 1 to 20
daily_limit: 40000 | hourly_limit: 4 | hourly_limit | buyers[River House].hourly_limit | 4 | below 50 | in bu/h, 50 to 200000

# Map
at: "05:15", weather_age_limit: 10 }⏎ | at: "05:15" }⏎map: { tiles: "http://t.example.org/{z}/{x}/{y}.png", credit: A }⏎ | map: | map.tiles | "http://t.example.org/{z}/{x}/{y}.png" | not an address of map tiles | begins with https
at: "05:15", weather_age_limit: 10 }⏎ | at: "05:15" }⏎map: { tiles: "https://t.example.org/{z}/{x}.png", credit: A }⏎ | map: | map.tiles | "https://t.example.org/{z}/{x}.png" | not an address of map tiles | {z}, {x} and {y} once each
at: "05:15", weather_age_limit: 10 }⏎ | at: "05:15" }⏎map: { tiles: "https://{s}.example.org/{z}/{x}/{y}.png", credit: A }⏎ | map: | map.tiles | "https://{s}.example.org/{z}/{x}/{y}.png" | not an address of map tiles | behind the host
at: "05:15", weather_age_limit: 10 }⏎ | at: "05:15" }⏎map: { tiles: "https://{z}.example.org/{x}/{y}.png", credit: A }⏎ | map: | map.tiles | "https://{z}.example.org/{x}/{y}.png" | not an address of map tiles | behind the host
at: "05:15", weather_age_limit: 10 }⏎ | at: "05:15" }⏎map: { tiles: "https://a:b@t.example.org/{z}/{x}/{y}.png", credit: A }⏎ | map: | map.tiles | "https://a:b@t.example.org/{z}/{x}/{y}.png" | not an address of map tiles | behind the host
at: "05:15", weather_age_limit: 10 }⏎ | at: "05:15" }⏎map: { tiles: "https://t.example.org/{z}/{x}/{y}.png" }⏎ | map: | map.credit | (missing) | missing | owed to

# Texts
planted: 2010-05-02 | planted: 5/2/2010 | 5/2/2010 | fields[Alpha].planted | 5/2/2010 | not a date | year-month-day
planted: 2010-05-02 | planted: 2010-02-30 | 02-30 | fields[Alpha].planted | 2010-02-30 | not a date | year-month-day
planted: 2010-05-02 | planted: 2010 | planted: 2010 | fields[Alpha].planted | 2010 | not text | year-month-day
time_zone: America/Chicago | time_zone: America/Champaign | Champaign | time_zone | America/Champaign | not a time zone | America/Chicago
time_zone: America/Chicago | time_zone: "-06:00" | -06:00 | time_zone | "-06:00" | not a time zone | IANA
email: ann@example.org | email: ann at home | ann at home | people[Ann].email | ann at home | not written | name@example.org
from: "08:00" | from: 8am | 8am | outfits[Outfit].hours.from | 8am | not written | hour:minute
at: "05:15" | before_window: 5 | before_window | morning.before_window | 5 | below 15 | 15 to 720
at: "05:15" | at: "05:15", earliest: "04:10" | 04:10 | morning.earliest | "04:10" | no use without before_window | Add before_window
at: "05:15" | at: "05:15", before_window: 90, earliest: "06:10" | 06:10 | morning.earliest | "06:10" | later than the latest | earlier time in earliest
at: "05:15" | at: "05:15", evening: noon | noon | morning.evening | noon | not written | hour:minute
at: "05:15" | at: "25:15" | 25:15 | morning.at | "25:15" | not written | at most 24:00
language: en | language: en⏎id: Test Farm | id: Test | id | Test Farm | not written | small letters
name: Alpha | name: "" | name: "" | fields[].name | "" | fewer than 1 characters | 1 to 60
after_wheat: false | after_wheat: no | after_wheat: no | fields[Beta].after_wheat | no | not true or false | true if planted after wheat
days_off: [sunday] | days_off: sunday | days_off: sunday | outfits[Outfit].days_off | sunday | not a list | A list of monday

# Keys
relative_maturity: 111 | relative_maturty: 111 | relative_maturty | fields[Beta].relative_maturty | relative_maturty | not a key known | Did you mean relative_maturity?
centre: { | center: { | center: | fields[Beta].center | center | not a key known | Did you mean centre?
tank: 300 | tnak: 300 | tnak | outfits[Outfit].combines[Red].tnak | tnak | not a key known | Did you mean tank?
grass_index: 35 | gras_index: 35 | gras_index | fire.stop.gras_index | gras_index | not a key known | Did you mean grass_index?
~~~~haul: 6⏎ | ~~~~haul: 6⏎    __proto__: 1⏎ | __proto__ | fields[Alpha].__proto__ | __proto__ | not a key known | Known here: name, id
~~~~usual_yield: 54⏎ |  | name: Alpha | fields[Alpha].usual_yield | (missing) | is missing | bu/acre
units: us⏎ |  | farm: Test | units | (missing) | is missing | us or metric
~~~~planted: 2010-05-02⏎ | ~~~~planted: 2010-05-02⏎    planted: 2010-05-03⏎ | 05-03 |  | planted: 2010-05-03 | stands twice | delete the other
use: global | use: open-aggregator | open-aggregator | weather[#2].consent | (missing) | is missing | read its terms
use: global | use: recorded⏎    day: 2010-09-28⏎    time: '05:30'⏎    credit: C⏎    licence: MIT | recorded | weather[#2].file | (missing) | is missing | Path of the CSV

# Between
name: Beta | name: alpha | name: alpha | fields[alpha].name | alpha | also the name of entry 1 | its own name
name: Hill House | name: river  house | river  house | buyers[river  house].name | river house | also the name of entry 1 | its own
name: Semi | name: 倉庫 | 倉庫 | outfits[Outfit].trucks[倉庫].name | 倉庫 | no letter from a to z | Add an id
name: Hole | name: swale! | swale! | fields[Alpha].patches[swale!].name | swale! | makes the id "swale" | id of its own
buyer: River House | buyer: Rivr House | Rivr | fields[Alpha].buyer | Rivr House | none of the buyers | Did you mean River House? Known buyers: River House, Hill House
buyer: River House | buyer: Hill House | buyer: Hill House | fields[Alpha].buyer | Hill House | does not buy soybean | Add soybean under pays
crops: [corn] | crops: [wheat-soft] | crop: corn | fields[Beta].crop | corn | no head of any combine cuts | Add corn to the crops of a head
crops: [corn] | crops: [corn, soybean] | [corn, soybean] | outfits[Outfit].combines[Red].heads[#2].crops | [corn, soybean] | cuts already | one head for each crop
low: 10.5 | low: 14 | low: 14 | fields[Alpha].band | { low: 14, high: 13.5 } | low end at or above | drier
share: 0.2 | share: 0.9 | share: 0.1 | fields[Alpha].patches | - { name: Swale, share: 0.1, kind: green, later: 7… | 100 percent | less than 1
maturity_group: 2.7⏎ | maturity_group: 2.7⏎    relative_maturity: 100⏎ | relative_maturity: 100 | fields[Alpha].relative_maturity | 100 | belongs to corn | Delete
~~~~maturity_group: 2.7⏎ |  | name: Alpha | fields[Alpha].maturity_group | (missing) | missing, but every soybean | 2.8
~~~~relative_maturity: 111⏎ |  | name: Beta | fields[Beta].relative_maturity | (missing) | missing, but every corn | 110
rows: 10 | mature_seen: 2010-04-01 | 2010-04-01 | fields[Alpha].mature_seen | 2010-04-01 | not after the planting on 2010-05-02 | two dates
rows: 10 | cut: 2012-04-01 | 2012-04-01 | fields[Alpha].cut | 2012-04-01 | 700 days after the planting | at most 400
hours: { from: "08:00", to: "22:00" } | hours: { from: "22:00", to: "02:00" } | "02:00" | outfits[Outfit].hours | { from: "22:00", to: "02:00" } | ends before it begins | 24:00
refuse_above: 18 | refuse_above: 12 | refuse_above: 12 | buyers[River House].pays[#1].refuse_above | 12 | drier than the standard moisture of 13 | wettest load
grass_index: 35 | grass_index: 10 | grass_index: 10 | fire.stop.grass_index | 10 | below the 20 | same or a higher
to: 2010-09-22 | to: 2010-09-12 | 2010-09-12 | fire.bans[#1].to | 2010-09-12 | before the ban begins | last day
- use: global | - { use: national-us } | { use: nat | weather[#2].use | national-us | listed twice | one of the two
- use: national-us⏎  - use: global | - use: global-history | use: global-history | weather[#1].use | global-history | the past only | source of forecasts
- use: global | - { use: recorded, file: a.csv, day: 2010-09-28, time: '05:30', credit: C, licence: MIT } | recorded | weather[#2].use | recorded | cannot stand beside live | alone

# Places
~~~~boundary:⏎ | ~~~~area: 300⏎    boundary:⏎ | area: 300 | fields[Alpha].area | 300 | acres is more than 5 percent off the 234. | Correct the boundary or the area
~~~~centre: { lat: 40.05, lon: -88.15 }⏎ |  | name: Beta | fields[Beta].boundary | (missing) | no place | centre: { lat, lon }
~~~~area: 120⏎ |  | name: Beta | fields[Beta].area | (missing) | missing, and only the centre | in acres
~~~~planted: 2010-05-02⏎ | ~~~~planted: 2010-05-02⏎    centre: { lat: 40.0, lon: -88.12 }⏎ | lon: -88.12 } | fields[Alpha].centre | { lat: 40.0, lon: -88.12 } | beside a boundary | delete centre
lat: 40.05, lon: -88.15 | lat: 40.05, lon: 88.15 | lon: 88.15 | fields[Beta].centre | { lat: 40.05, lon: 88.15 } | km from home | west and south are negative
type: Polygon | type: Point | type: Point | fields[Alpha].boundary.type | Point | not written | Polygon or MultiPolygon
[-88.12, 40.0] | [40.0, -98.12] | -98.12 | fields[Alpha].boundary.coordinates[#1][#2] | [40.0, -98.12] | no place on earth | [longitude, latitude]
[-88.13, 40.0]]] | [-88.13, 40.001]]] | coordinates | fields[Alpha].boundary.coordinates[#1] | [[-88.13, 40.0], [-88.12, 40.0], [-88.12, 40.01], … | not closed | Repeat the first point [-88.13, 40]
[-88.12, 40.01], [-88.13, 40.01] | [-88.13, 40.01], [-88.12, 40.01] | coordinates | fields[Alpha].boundary.coordinates[#1] | [[-88.13, 40.0], [-88.12, 40.0], … | crosses itself | order round the field
[-88.12, 40.01], [-88.13, 40.01] | [-88.11, 40.0], [-88.10, 40.0] | coordinates | fields[Alpha].boundary.coordinates[#1] | [[-88.13, 40.0], [-88.12, 40.0], [-88.11, 40.0], … | no area | three corners
[-88.13, 40.0]]] | [-88.13, 40.0]], [[0, 0], [1, 0], [1, 1], [0, 0]]] | coordinates | fields[Alpha].boundary.coordinates[#2] | [[0, 0], [1, 0], [1, 1], [0, 0]] | hole that lies outside | MultiPolygon
share: 0.1, |  | name: Swale | fields[Alpha].patches[Swale].share | (missing) | missing, and outline too | 0.08 is 8 percent
share: 0.1, | share: 0.1, outline: { type: Polygon, coordinates: [[[-88.13, 40.0], [-88.125, 40.0], [-88.13, 40.01], [-88.13, 40.0]]] }, | share: 0.1 | fields[Alpha].patches[Swale].share | 0.1 | stands beside an outline | delete share
share: 0.1, | outline: { type: Polygon, coordinates: [[[-88.11, 40.0], [-88.10, 40.0], [-88.11, 40.01], [-88.11, 40.0]]] }, | outline | fields[Alpha].patches[Swale].outline | { type: Polygon, coordinates: [[[-88.11, 40.0], [… | outside the field | over the boundary
share: 0.1, | outline: { type: Polygon, coordinates: [[[-88.13, 40.0], [-88.125, 40.0], [-88.13, 40.01], [-88.129, 40.0]]] }, | outline | fields[Alpha].patches[Swale].outline.coordinates[#1] | [[-88.13, 40.0], [-88.125, 40.0], [-88.13, 40.01… | not closed | Repeat the first
`

export interface FaultCase {
  readonly piece: string
  readonly by: string
  readonly lineWith: string
  readonly path: string
  readonly value: string
  readonly problem: string
  readonly cure: string
}

export const FAULT_CASES: readonly FaultCase[] = TABLE.split('\n')
  .filter((row) => row !== '' && !row.startsWith('#'))
  .map((row) => {
    const cells = row.split(' | ').map((cell) => cell.trim())
    if (cells.length !== 7) throw new Error(`${cells.length} cells in the row: ${row}`)
    const [piece, by, lineWith, path, value, problem, cure] = cells as [
      string,
      string,
      string,
      string,
      string,
      string,
      string,
    ]
    return { piece: unfolded(piece), by: unfolded(by), lineWith, path, value, problem, cure }
  })

function unfolded(cell: string): string {
  return cell.replace(/^~+/, (tildes) => ' '.repeat(tildes.length)).replaceAll('⏎', '\n')
}
