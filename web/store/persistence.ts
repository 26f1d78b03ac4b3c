/** Text kept in the browser between visits. A browser may deny storage: then reading gives nothing and work goes on. */
import { readonly, ref } from 'vue'

const denied = ref(false)

/** True once the browser has refused to store something; the page says so once. */
export const storageDenied = readonly(denied)

/** The text under `key`; undefined where there is none or storage is denied. */
export function readText(key: string): string | undefined {
  try {
    return localStorage.getItem(key) ?? undefined
  } catch {
    denied.value = true
    return undefined
  }
}

/** Stores `text` under `key`; on refusal sets `storageDenied` and goes on. */
export function writeText(key: string, text: string): void {
  try {
    localStorage.setItem(key, text)
    denied.value = false
  } catch {
    denied.value = true
  }
}
