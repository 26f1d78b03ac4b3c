/** The faces of the look, all under the OFL; browsers fetch only the alphabets that a page uses. */
import '@fontsource-variable/sofia-sans/wght.css'
import '@fontsource-variable/sofia-sans-semi-condensed/wght.css'
import '@fontsource-variable/stix-two-text/wght-italic.css'
