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
