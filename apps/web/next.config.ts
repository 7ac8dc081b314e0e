import path from 'node:path';
import type { NextConfig } from 'next';

const repositoryRoot = path.resolve(import.meta.dirname, '../..');

/** Headers that never change. The content policy carries a nonce per request: see proxy.ts. */
const standingHeaders = [
  { key: 'Referrer-Policy', value: 'no-referrer' },
  { key: 'X-Content-Type-Options', value: 'nosniff' },
  { key: 'X-Frame-Options', value: 'DENY' },
  { key: 'Cross-Origin-Opener-Policy', value: 'same-origin' },
  { key: 'Cross-Origin-Resource-Policy', value: 'same-origin' },
  {
    key: 'Permissions-Policy',
    value: 'camera=(self), microphone=(self), geolocation=(), payment=()',
  },
];

const config: NextConfig = {
  output: 'standalone',
  outputFileTracingRoot: repositoryRoot,
  turbopack: { root: repositoryRoot },
  transpilePackages: ['@fairlead/diagnosis', '@fairlead/hangar', '@fairlead/money'],
  poweredByHeader: false,
  reactStrictMode: true,
  // The two hosts a developer or a test may type for this machine.
  allowedDevOrigins: ['127.0.0.1', 'localhost'],
  devIndicators: false,
  experimental: {
    // Next buffers what it forwards and silently cuts it at this size; proxy.ts refuses larger
    // bodies by name first. A twelve-megapixel photograph is 3 to 12 MB.
    proxyClientMaxBodySize: '64mb',
    // Live streams may stay silent between two pings.
    proxyTimeout: 600_000,
  },
  // Browsers ask for it where no page has named an icon yet.
  rewrites: async () => [{ source: '/favicon.ico', destination: '/icon.svg' }],
  headers: async () => [{ source: '/:path*', headers: standingHeaders }],
};

export default config;
