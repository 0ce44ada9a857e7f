declare module 'http_ece' {
  import type { ECDH } from 'node:crypto'
  export function decrypt(
    body: Buffer,
    parameters: { readonly version: 'aes128gcm'; readonly privateKey: ECDH; readonly authSecret: Buffer },
  ): Buffer
}
