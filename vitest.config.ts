import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    reporters: process.env.CI ? ['default', ['json', { outputFile: 'test-results/report.json' }]] : ['default'],
    testTimeout: 30_000,
    expect: { poll: { timeout: 15_000 } },
    pool: 'threads',
    env: { NODE_ENV: 'test', NO_COLOR: '1' },
  },
})
