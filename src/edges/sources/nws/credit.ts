/** How the US National Weather Service is credited. Its products are in the public domain (17 USC 105, from memory). */
export const NWS_CREDIT = {
  name: 'US National Weather Service',
  attribution: 'Forecast and warnings: US National Weather Service (weather.gov)',
  licence: 'public domain (US government work)',
} as const
