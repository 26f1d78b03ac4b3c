/** Puts a strict content security policy into the built page; the development server needs inline scripts and goes without. */
import type { Plugin } from 'vite'

/**
 * Nothing but our own files; no code from text. Inline styles are allowed because the chart library and Vue's style bindings set them.
 * Pictures may come from data and blob addresses: that is how a chart is saved as a picture.
 */
export const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "font-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ')

export function contentSecurityPolicy(): Plugin {
  return {
    name: 'wattfork-policy',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler: () => [
        {
          tag: 'meta',
          attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY },
          injectTo: 'head-prepend',
        },
      ],
    },
  }
}
