#pragma once
// How a page looks: one style sheet, in the page itself.

namespace samelight::report {

// Every ink has a contrast of 4.5 or more against its ground in both schemes (WCAG 2.1, 1.4.3); a test computes it in the browser.
inline constexpr const char* page_style = R"(
:root { color-scheme: light dark;
  --ground: #ffffff; --raised: #f3f5f7; --text: #1b1f24; --faint: #59626d; --rule: #c9d0d7; --accent: #0b5cad; --second: #8a4b00;
  --third: #5b3a9e; --red: #b3261e; --green: #1a6b32; --blue: #0b4fc4; --caution: #7a4a00; }
@media (prefers-color-scheme: dark) { :root {
  --ground: #15181c; --raised: #20252b; --text: #e8eaed; --faint: #a9b2bc; --rule: #434b55; --accent: #7cb7ff; --second: #f0b36a;
  --third: #c3a6ff; --red: #ff9b93; --green: #7fd69a; --blue: #9dbdff; --caution: #f3c27a; } }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 52rem; padding: 1rem 1rem 3rem; background: var(--ground); color: var(--text);
  font: 1rem/1.5 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.4rem; line-height: 1.25; margin: 0.5rem 0 1rem; }
h2 { font-size: 1.15rem; margin: 2rem 0 0.5rem; border-top: 1px solid var(--rule); padding-top: 1rem; }
p { margin: 0.5rem 0; }
.verdict { font-size: 1.1rem; border-left: 0.35rem solid var(--accent); padding: 0.2rem 0 0.2rem 0.8rem; }
.verdict.done { border-color: var(--green); } .verdict.stop { border-color: var(--red); border-left-style: double; }
.verdict.leave, .verdict.look { border-color: var(--faint); border-left-style: dashed; }
dl.figures { display: grid; grid-template-columns: auto 1fr; gap: 0.25rem 1rem; margin: 0.75rem 0; }
dl.figures dt { color: var(--faint); }
dl.figures dd { margin: 0; }
dl.figures strong { font-size: 1.15rem; font-variant-numeric: tabular-nums; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; margin: 0.25rem 0 0.75rem; font-variant-numeric: tabular-nums; }
p.about { color: var(--faint); margin: 0.9rem 0 0; }
th, td { padding: 0.2rem 0.5rem; border-bottom: 1px solid var(--rule); text-align: left; overflow-wrap: normal; }
th.number, td.number { text-align: right; } td.number { white-space: nowrap; }
tr.marked td { background: var(--raised); font-weight: 600; }
tr.marked td:first-child::before { content: "\2192\00a0"; }
.caution { border: 1px solid var(--caution); border-radius: 0.3rem; padding: 0.4rem 0.7rem; }
.caution b { color: var(--caution); }
figure { margin: 1rem 0; break-inside: avoid; }
figcaption { font-weight: 600; margin-bottom: 0.3rem; }
figure > svg { display: block; width: 100%; max-width: 40rem; height: auto; font: 14px system-ui, sans-serif; }
figure p { color: var(--faint); font-size: 0.9rem; }
svg text { fill: var(--text); }
svg line, svg path { stroke: currentColor; stroke-width: 1.5; fill: none; }
svg .grid { color: var(--rule); stroke-width: 1; } svg .lead { color: var(--faint); stroke-width: 1; }
svg .frame { fill: none; stroke: var(--faint); }
svg .curve { stroke-width: 2; } svg .area { stroke-width: 2; fill: currentColor; fill-opacity: 0.07; }
svg .solid { fill: currentColor; stroke: var(--ground); stroke-width: 1; } svg .open { fill: var(--ground); stroke: currentColor; stroke-width: 2; }
svg .dashed { stroke-dasharray: 8 4; } svg .dotted { stroke-dasharray: 2 4; } svg .dash-dot { stroke-dasharray: 9 4 2 4; }
svg .density, svg .cell { fill: var(--accent); }
svg .bar { fill: var(--accent); } svg .second-bar { fill: var(--ground); stroke: var(--second); stroke-width: 2; }
.ink-text { color: var(--text); } .ink-faint { color: var(--faint); } .ink-accent { color: var(--accent); } .ink-second { color: var(--second); }
.ink-third { color: var(--third); } .ink-red { color: var(--red); } .ink-green { color: var(--green); } .ink-blue { color: var(--blue); }
ul.key { list-style: none; margin: 0.4rem 0; padding: 0; display: flex; flex-wrap: wrap; gap: 0.2rem 1.2rem; font-size: 0.9rem; }
svg.swatch { width: 34px; height: 14px; vertical-align: -2px; }
details { margin: 0.75rem 0; } summary { cursor: pointer; color: var(--accent); }
footer { margin-top: 2.5rem; border-top: 1px solid var(--rule); padding-top: 0.75rem; color: var(--faint); font-size: 0.9rem; }
@page { size: A4; margin: 16mm; }
@media print { :root { color-scheme: light; --ground: #fff; --raised: #f3f5f7; --text: #000; --faint: #444; --rule: #bbb; --accent: #0b5cad;
  --second: #8a4b00; --third: #5b3a9e; --red: #b3261e; --green: #1a6b32; --blue: #0b4fc4; --caution: #7a4a00; }
  .wide { overflow: visible; } table { font-size: 8pt; } th, td { padding: 0.15rem 0.3rem; }
  body { max-width: none; padding: 0; font-size: 10.5pt; } figure > svg { max-width: 12cm; } h2 { break-after: avoid; } }
)";

}  // namespace samelight::report
