#pragma once

#include <string_view>

namespace voltwright {

/// How the sheet looks: large type, black on white on paper, light or dark on a screen as the reader has it. Nothing is
/// told by colour alone. A phone gets the drawings that are made for it.
inline constexpr std::string_view sheet_style = R"css(
:root{color-scheme:light dark;--ink:#111;--paper:#fff;--soft:#444;--rule:#767676;--faint:#c8c8c8;--band:#e6e6e6;--mark:#083d4a}
@media screen and (prefers-color-scheme:dark){:root{--ink:#f2f2f2;--paper:#161616;--soft:#c6c6c6;--rule:#9a9a9a;--faint:#4a4a4a;--band:#2e2e2e;--mark:#9fdbe6}}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font:1.06rem/1.45 "DejaVu Sans",Verdana,Arial,sans-serif;overflow-wrap:break-word}
header,main,footer{max-width:50rem;margin:0 auto;padding:0 .62rem}
h1{font-size:1.7rem;line-height:1.2;margin:.8rem 0 .5rem}
h2{font-size:1.25rem;margin:1.9rem 0 .5rem;padding-top:.35rem;border-top:4px solid var(--ink)}
h3{font-size:1.06rem;margin:1.1rem 0 .3rem}
p{margin:.4rem 0}
ul,ol,dl{margin:.4rem 0;padding:0}
ul,ol{padding-left:1.5rem}
li{margin:.3rem 0}
.verdict{border:3px solid;padding:.5rem .7rem;font-size:1.15rem;font-weight:bold}
.fails{border-width:7px;border-style:double}
.first{border-left:7px double;padding-left:.7rem;margin:.7rem 0}
.soft{color:var(--soft)}
dt{font-weight:bold}
dd{margin:0 0 .45rem}
figure{margin:.6rem 0}
figcaption{color:var(--soft);font-size:.92rem}
svg{display:block;width:100%;height:auto;font:12.5px "DejaVu Sans",Verdana,Arial,sans-serif}
svg text{fill:var(--ink);paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}
svg text[data-in]{stroke:none}
.phone{display:none;max-width:26rem}
.frame{fill:var(--paper)}
.thin,.plain,.heavy,.dashed,.dotted,.grid{stroke:var(--ink);fill:none}
.frame.plain,.frame.heavy,.frame.dashed{fill:var(--paper)}
.thin{stroke-width:1}
.plain{stroke-width:1.8}
.heavy{stroke-width:3.2;stroke-linejoin:round}
.dashed{stroke-width:2;stroke-dasharray:8 5}
.dotted{stroke-width:2.4;stroke-dasharray:2 5}
.grid{stroke:var(--faint);stroke-width:1}
polyline.heavy{stroke:var(--mark)}
.band{fill:var(--band)}
.block{fill:var(--ink)}
table{width:100%;table-layout:fixed;border-collapse:collapse;font-size:.95rem;line-height:1.35}
caption{text-align:left;color:var(--soft);padding:0 0 .3rem}
th,td{text-align:left;vertical-align:top;padding:.32rem .35rem;border-bottom:1px solid var(--rule)}
thead th{border-bottom:2.5px solid var(--ink)}
tbody th{font-weight:normal}
th b,td b{font-weight:bold}
.w1{width:3.6rem}.w2{width:22%}.w3{width:30%}.wf{width:6.2rem}
.money{text-align:right}
.for{color:var(--soft)}
input{width:1.25rem;height:1.25rem;margin:0 .55rem 0 0;vertical-align:-.2rem;accent-color:var(--mark)}
td input{margin:0}
.checks{list-style:none;padding:0}
.checks label{display:block;padding-left:1.9rem;text-indent:-1.9rem}
.level{font-weight:bold;border:2px solid;padding:0 .35rem;margin-right:.35rem;font-size:.86em;line-height:1}
.stop{border-style:double;border-width:4px}
.note{border-style:dotted}
td.fill{white-space:nowrap;font-size:1.25em}
.joints{list-style:none;padding:0}.joints li{margin:.25rem 0}
footer{border-top:1px solid var(--rule);margin-top:2rem;padding-top:.6rem;padding-bottom:2rem;color:var(--soft);font-size:.92rem}
@media screen and (max-width:640px){.page{display:none}.phone{display:block}body{font-size:1rem}table{font-size:.88rem}th,td{padding:.3rem .2rem}.wf{width:4.6rem}.w1{width:3.1rem}.w2{width:30%}.fill{display:none}}
@media screen and (min-width:641px){body{padding-bottom:2rem}}
@page{margin:12mm}
@media print{
:root{color-scheme:light}
body{font-size:9.4pt;line-height:1.3}
header,main,footer{max-width:none;padding:0}
h1{font-size:17pt;margin:0 0 2mm}
h2{font-size:12pt;margin:3.5mm 0 1mm;padding-top:.8mm;border-top-width:.9mm}
h3{font-size:10pt;margin:2mm 0 .8mm}
h2,h3,caption{break-after:avoid}
p{margin:.8mm 0}
.verdict{font-size:11.5pt;padding:1.2mm 2mm}
.whole,tr,li,figure,dd,.verdict,.first{break-inside:avoid}
p,dd{orphans:3;widows:3}
li,dd,dl,ul,ol{margin:.6mm 0}
figure{margin:1mm 0}
.pair{display:grid;grid-template-columns:1fr 1fr;column-gap:7mm}
.pair .wide{display:none}
.pair .small{display:block;max-width:none}
table{font-size:8.8pt;line-height:1.24}
th,td{padding:.5mm 1mm}
figcaption,footer,caption,.soft{font-size:8.3pt}
#checks+.checks,.joints{columns:2;column-gap:7mm}
.joints{font-size:8.8pt;line-height:1.24}.joints li{margin:0 0 .8mm;break-inside:avoid}
#findings+ol{font-size:8.8pt;line-height:1.28}
.level{font-size:.78em;border-width:1px;padding:0 .25em}
.stop{border-width:3px}
thead{break-after:avoid}
.sources{font-size:6.6pt;line-height:1.2;padding:0}.sources li{display:inline}.sources li:not(:last-child)::after{content:" · "}
input{width:3.4mm;height:3.4mm}
footer{margin-top:2mm;padding:1mm 0 0}
}
)css";

}  // namespace voltwright
