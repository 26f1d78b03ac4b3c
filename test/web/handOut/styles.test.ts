/** Style sheets as text: what is kept for a sheet that stands by itself. */
import { describe, expect, it } from 'vitest'
import { rulesFor, splitRules } from '../../../web/handOut/styles.ts'

describe('rules', () => {
  it('are split at their own braces, whatever stands in strings and comments', () => {
    const css = `@import "x.css"; a::before { content: "}{;" } /* b { } */ @media print { c { d: e } f { g: h } } i{j:k}`
    expect(splitRules(css).map(({ head }) => head)).toEqual(['a::before', '@media print', 'i'])
    expect(splitRules(splitRules(css)[1]!.body).map(({ head }) => head)).toEqual(['c', 'f'])
  })

  it('are kept as they were written where an element answers to them, with their conditions', () => {
    document.body.innerHTML = '<div class="sheet"><p class="in"><b>x</b></p></div><p class="out">y</p>'
    const css = `
      .in { font: 640 13px/20px var(--fig); font-variant-numeric: tabular-nums }
      .out { color: red }
      .in::before, .out { content: "–" }
      .in:is(.a, p) > b { color: blue }
      .in > ::before { color: green }
      .out > ::before { color: red }
      @media print { .in { color: black } .out { color: red } }
      @media screen { .out { color: red } }
      @container leaf (max-width: 600px) { b { columns: 1 } }
      @page { margin: 9mm }
      @page across { size: A4 landscape }
      @font-face { font-family: X; src: url(x.woff2) }
      @keyframes k { from { top: 0 } }`
    const kept = rulesFor(document.querySelector('.sheet')!, css).map((rule) => rule.replaceAll(/\s+/gu, ''))
    expect(kept).toEqual([
      '.in{font:64013px/20pxvar(--fig);font-variant-numeric:tabular-nums}',
      '.in::before,.out{content:"–"}',
      '.in:is(.a,p)>b{color:blue}',
      '.in>::before{color:green}',
      '@mediaprint{.in{color:black}}',
      '@containerleaf(max-width:600px){b{columns:1}}',
      '@page{margin:9mm}',
    ])
    document.body.innerHTML = ''
  })
})
