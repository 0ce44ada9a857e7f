const t: Temporal.Instant = Temporal.Now.instant()
console.log(t.toString())
