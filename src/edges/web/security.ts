/** Headers that every answer carries: nothing from elsewhere, no inline script or style, no framing. */
import { secureHeaders } from 'hono/secure-headers'

const SELF = ["'self'"]
const NONE = ["'none'"]

export const securityHeaders = () =>
  secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: NONE,
      baseUri: NONE,
      connectSrc: SELF,
      fontSrc: NONE,
      formAction: SELF,
      frameAncestors: NONE,
      imgSrc: SELF,
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
