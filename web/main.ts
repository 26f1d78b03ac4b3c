import { createApp } from 'vue'
import { createPinia } from 'pinia'
import './look/fonts.ts'
import './look/tokens.css'
import './look/base.css'
import App from './App.vue'
import { useThemeChoice } from './look/theme.ts'

// before the first paint, or a stored theme flashes the other one
useThemeChoice()
createApp(App).use(createPinia()).mount('#app')
