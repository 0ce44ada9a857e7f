/** Headers that every answer carries: nothing from elsewhere, no inline script or style, no framing. */
import { secureHeaders } from 'hono/secure-headers'

const SELF = ["'self'"]
const NONE = ["'none'"]

/** @param pictures origins from elsewhere that pictures may come from. */
export const securityHeaders = (pictures: readonly string[] = []) =>
  secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: NONE,
      baseUri: NONE,
      connectSrc: SELF,
      fontSrc: NONE,
      formAction: SELF,
      frameAncestors: NONE,
      imgSrc: [...SELF, ...pictures],
      manifestSrc: SELF,
      objectSrc: NONE,
      scriptSrc: SELF,
      styleSrc: SELF,
      workerSrc: SELF,
    },
    permissionsPolicy: { camera: [], geolocation: [], microphone: [], payment: [], usb: [] },
    referrerPolicy: 'same-origin',
    xFrameOptions: 'DENY',
  })
