// Says when the plan on this page is no longer the newest.
const news = document.getElementById('news')

function say(what) {
  news.hidden = what === undefined
  for (const line of news.children) line.hidden = line.dataset.say !== what
}

if (news) {
  const drawnWhileMaking = !news.hidden
  const events = new EventSource('/api/live')
  events.addEventListener('told', () => say('making'))
  events.addEventListener('day', ({ data }) => {
    const { plan, made } = JSON.parse(data)
    // Who comes anew hears of the newest day: it may be the one of this page.
    if (made === news.dataset.made) return
    say(plan !== news.dataset.plan || drawnWhileMaking ? 'newer' : undefined)
  })
  addEventListener('pagehide', () => events.close())
}
