/** At most so many pieces of work at a time; the rest wait in the order they came. */
export interface Gate {
  through<T>(work: () => Promise<T>): Promise<T>
}

export function gate(most: number): Gate {
  let inside = 0
  const waiting: (() => void)[] = []
  return {
    async through(work) {
      // Whoever leaves hands its place to the first that waits.
      if (inside < most) inside++
      else await new Promise<void>((resolve) => waiting.push(resolve))
      try {
        return await work()
      } finally {
        const next = waiting.shift()
        if (next) next()
        else inside--
      }
    },
  }
}
