// Signs this browser up for notes, or off again. Without it the page says what it would need.
const place = document.querySelector('[data-push-key]')
const on = place.querySelector('.push-on')
const off = place.querySelector('.push-off')
/** Where the id of this browser's subscription is kept, so that it can be ended. */
const KEPT = 'threshday-push'

function show(state) {
  place.querySelector('.push-state').textContent = place.dataset[state]
  on.hidden = state !== 'off' && state !== 'failed'
  off.hidden = state !== 'on'
}

async function worker() {
  await navigator.serviceWorker.register('/sw.js')
  return await navigator.serviceWorker.ready
}

async function signUp() {
  if ((await Notification.requestPermission()) !== 'granted') return show('denied')
  const { pushManager } = await worker()
  // One made for another key of the service is of no use.
  await (await pushManager.getSubscription())?.unsubscribe()
  const subscription = await pushManager.subscribe({
    userVisibleOnly: true,
    applicationServerKey: place.dataset.pushKey,
  })
  const { endpoint, keys } = subscription.toJSON()
  const response = await fetch('/api/push', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ endpoint, keys }),
  })
  if (!response.ok) {
    await subscription.unsubscribe()
    return show('failed')
  }
  localStorage.setItem(KEPT, (await response.json()).id)
  show('on')
}

async function signOff() {
  const { pushManager } = await worker()
  const id = localStorage.getItem(KEPT)
  await (await pushManager.getSubscription())?.unsubscribe()
  if (id) await fetch(`/api/push?id=${encodeURIComponent(id)}`, { method: 'DELETE' })
  localStorage.removeItem(KEPT)
  show('off')
}

async function look() {
  if (!('serviceWorker' in navigator && 'PushManager' in window && 'Notification' in window)) return show('unsupported')
  if (Notification.permission === 'denied') return show('denied')
  const subscription = await (await worker()).pushManager.getSubscription()
  show(subscription && localStorage.getItem(KEPT) ? 'on' : 'off')
}

const orFailed = (work) => () => work().catch(() => show('failed'))
on.addEventListener('click', orFailed(signUp))
off.addEventListener('click', orFailed(signOff))
void orFailed(look)()
