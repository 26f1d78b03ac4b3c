/**
 * Text kept in the browser between visits: for this tab, so that two tabs do not overwrite each other, and for the next
 * visit. A browser may deny storage: then reading gives nothing and work goes on.
 */
import { readonly, ref } from 'vue'

const denied = ref(false)

/** True once the browser has refused to store something; the page says so once. */
export const storageDenied = readonly(denied)

/** The text that this tab stored under `key`, else the one that any tab stored last; undefined where there is none or storage is denied. */
export function readText(key: string): string | undefined {
  try {
    return sessionStorage.getItem(key) ?? localStorage.getItem(key) ?? undefined
  } catch {
    denied.value = true
    return undefined
  }
}

/** Stores `text` under `key`; on refusal sets `storageDenied` and goes on. */
export function writeText(key: string, text: string): void {
  try {
    sessionStorage.setItem(key, text)
    localStorage.setItem(key, text)
    denied.value = false
  } catch {
    denied.value = true
  }
}

/** The text that any tab stored under `key` for all of them. */
export function readShared(key: string): string | undefined {
  try {
    return localStorage.getItem(key) ?? undefined
  } catch {
    denied.value = true
    return undefined
  }
}

/** Stores `text` under `key` for all tabs; on refusal sets `storageDenied` and goes on. */
export function writeShared(key: string, text: string): void {
  try {
    localStorage.setItem(key, text)
    denied.value = false
  } catch {
    denied.value = true
  }
}

/** Takes away what `writeShared` stored. */
export function forgetText(key: string): void {
  try {
    localStorage.removeItem(key)
  } catch {
    denied.value = true
  }
}

/** Keys that all tabs share and that begin with `start`. */
export function keysOf(start: string): string[] {
  try {
    return Array.from({ length: localStorage.length }, (_, i) => localStorage.key(i) ?? '').filter((key) =>
      key.startsWith(start),
    )
  } catch {
    denied.value = true
    return []
  }
}
