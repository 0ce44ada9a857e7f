/** How Open-Meteo is credited. */
export const OPEN_METEO_CREDIT = {
  name: 'Open-Meteo',
  attribution: 'Weather data by Open-Meteo.com (https://open-meteo.com/), changed: brought to hours',
  licence: 'CC BY 4.0',
} as const
