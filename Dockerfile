FROM node:26-slim
ENV NODE_ENV=production THRESHDAY_HOST=0.0.0.0 THRESHDAY_PORT=8470 THRESHDAY_DATA=/data
WORKDIR /app
COPY package.json package-lock.json ./
# The image brings its own runtime: the optional packages that pin it elsewhere are left out.
RUN npm ci --omit=dev --omit=optional --no-fund --no-audit && npm cache clean --force
COPY tsconfig.json README.md LICENSE ./
COPY src ./src
COPY config ./config
RUN mkdir /data && chown node:node /data
USER node
VOLUME /data
EXPOSE 8470
HEALTHCHECK --interval=30s --timeout=5s --start-period=10s \
  CMD ["node", "-e", "fetch('http://127.0.0.1:' + process.env.THRESHDAY_PORT + '/health').then((answer) => process.exit(answer.ok ? 0 : 1), () => process.exit(1))"]
CMD ["node", "src/main.ts", "serve"]
