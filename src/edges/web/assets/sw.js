// Keeps the last seen pages for when there is no signal. Pages come from the network whenever it answers in time.
// Before this, the service sets: const ASSETS = [...], const VERSION = '...'
const PAGES = 'threshday-pages'
const FILES = `threshday-files-${VERSION}`
const CAB = ['/cab', '/cab/reading', '/cab/cut', '/cab/problem']
const PATIENCE_MS = 5000

self.addEventListener('install', (event) => {
  event.waitUntil(install())
})

async function install() {
  await (await caches.open(FILES)).addAll(ASSETS)
  await self.skipWaiting()
  const pages = await caches.open(PAGES)
  await Promise.all(CAB.map((path) => keep(pages, new Request(path)).catch(() => {})))
}

self.addEventListener('activate', (event) => {
  event.waitUntil(activate())
})

async function activate() {
  for (const name of await caches.keys()) if (name !== PAGES && name !== FILES) await caches.delete(name)
  await self.clients.claim()
}

self.addEventListener('fetch', (event) => {
  const { request } = event
  const { pathname } = new URL(request.url)
  // Who signs out leaves no page behind for the next one.
  if (request.method === 'POST' && pathname === '/sign-out') event.waitUntil(caches.delete(PAGES))
  if (request.method !== 'GET') return
  if (ASSETS.includes(pathname)) event.respondWith(caches.match(request).then((kept) => kept ?? fetch(request)))
  else if (request.mode === 'navigate') event.respondWith(page(request))
})

async function page(request) {
  const pages = await caches.open(PAGES)
  try {
    return await keep(pages, request)
  } catch (failure) {
    const kept = await pages.match(request, { ignoreSearch: true })
    if (kept) return kept
    throw failure
  }
}

async function keep(pages, request) {
  const response = await fetch(request, { signal: AbortSignal.timeout(PATIENCE_MS) })
  const isPage =
    response.ok && !response.redirected && (response.headers.get('content-type') ?? '').includes('text/html')
  if (isPage) await pages.put(request.url.split('?')[0], response.clone())
  return response
}

// A note from the service. A push must show something, also where it can't be read.
self.addEventListener('push', (event) => {
  event.waitUntil(showNote(event.data))
})

async function showNote(data) {
  let note = { title: 'Threshday', body: '', tag: 'threshday', path: '/' }
  try {
    note = { ...note, ...data.json() }
  } catch {
    // The title alone says that there is news.
  }
  const { title, body, tag, path, urgent } = note
  const requireInteraction = urgent === true
  await self.registration.showNotification(title, { body, tag, renotify: true, requireInteraction, data: { path } })
}

self.addEventListener('notificationclick', (event) => {
  event.notification.close()
  event.waitUntil(openPage(event.notification.data?.path ?? '/'))
})

async function openPage(path) {
  const url = new URL(path, self.location.origin)
  if (url.origin !== self.location.origin) return
  const windows = await self.clients.matchAll({ type: 'window' })
  const open = windows.find((client) => client.url === url.href)
  await (open ? open.focus() : self.clients.openWindow(url.href))
}

// The browser renews a subscription on its own: the service must learn of it, or notes stop.
self.addEventListener('pushsubscriptionchange', (event) => {
  event.waitUntil(renew(event))
})

async function renew({ oldSubscription, newSubscription }) {
  const options = oldSubscription?.options
  const subscription = newSubscription ?? (options && (await self.registration.pushManager.subscribe(options)))
  if (!subscription) return
  const { endpoint, keys } = subscription.toJSON()
  await fetch('/api/push', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ endpoint, keys }),
  })
}
