/** Whether single letters do anything: who dictates, or holds the keyboard unsteadily, can switch them off. Remembered. */
import { ref } from 'vue'
import { readShared, writeShared } from '../store/persistence.ts'

const KEY = 'wattfork.plain-keys'

const isOn = ref(readShared(KEY) !== 'off')

export const plainKeys = isOn

export function choosePlainKeys(on: boolean): void {
  isOn.value = on
  writeShared(KEY, on ? 'on' : 'off')
}
