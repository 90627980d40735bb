/** The look of documents: ink on paper, rules instead of boxes; dark where the reader's system is. */
import { CHART_STYLE } from '../charts/chart-style.js';

export const DOCUMENT_STYLE = `
:root{color-scheme:light dark;--paper:#fff;--ink:#1d1d1b;--soft:#55534e;--rule:#b9b5ab;--band:#f3f1ec}
@media (prefers-color-scheme:dark){:root{--paper:#1b1b1a;--ink:#eceae4;--soft:#b4b0a6;--rule:#5c5952;--band:#262523}}
*{box-sizing:border-box}
body{margin:0 auto;padding:2rem 1.25rem 4rem;max-width:62rem;background:var(--paper);color:var(--ink);font:16px/1.5 system-ui,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif}
h1{font-size:1.6rem;line-height:1.2;margin:0}
header{border-bottom:3px double var(--ink);padding-bottom:.75rem}
header p{margin:.35rem 0 0;color:var(--soft)}
a{color:inherit}
a:focus-visible{outline:2px solid var(--ink);outline-offset:2px}
.skip{position:absolute;left:-200vw}
.skip:focus{left:1.25rem;top:.4rem;background:var(--paper);padding:.2rem .5rem}
.whole{white-space:nowrap}
code{font:.92em ui-monospace,Menlo,Consolas,monospace}
nav{margin:1.25rem 0 0}
nav h2{font-size:1rem;border:0;margin:0}
nav ol{columns:18rem;column-gap:3rem;margin:.3rem 0 0;padding-left:1.6rem;font-size:.9375rem}
nav li{break-inside:avoid;margin:0 0 .2rem}
h2{font-size:1.3rem;margin:2.5rem 0 .5rem;border-bottom:1px solid var(--ink);padding-bottom:.2rem}
h3{font-size:1.05rem;margin:1.75rem 0 .4rem}
p,li{max-width:44rem}
h1,h2,h3,p,li,.caption,figcaption{overflow-wrap:anywhere}
p{margin:.6rem 0}
ul{padding-left:1.2rem}
li{margin:.25rem 0}
.lead{font-size:1.2rem;line-height:1.4;font-weight:700}
.figures{display:grid;grid-template-columns:repeat(auto-fit,minmax(11rem,1fr));gap:.8rem 1.5rem;margin:1rem 0}
.figures div{display:flex;flex-direction:column;border-top:2px solid var(--ink);padding-top:.35rem}
.figures dt{font-size:.875rem;line-height:1.3;order:2}
.figures dd{margin:0}
.figures .value{font-size:1.75rem;line-height:1.2;font-weight:700;font-variant-numeric:lining-nums tabular-nums}
.figures .note{order:3;line-height:1.3}
.note{color:var(--soft);font-size:.875rem}
.frame{overflow-x:auto;margin:1rem 0}
.frame:focus-visible{outline:2px solid var(--ink);outline-offset:2px}
table{border-collapse:collapse;font-size:.875rem;line-height:1.35;font-variant-numeric:lining-nums tabular-nums}
.caption{font-size:.875rem;font-weight:700;margin:1.4rem 0 .1rem}.caption+.frame{margin-top:0}
.beside{display:flex;flex-wrap:wrap;gap:0 3rem}
.beside>div{min-width:0;max-width:100%}
.beside.even{gap:0 2rem}
.beside.even>div{flex:1 1 17rem}
.beside li{font-size:.9375rem;line-height:1.42}
table.wide{min-width:46rem}
th,td{text-align:left;vertical-align:top;padding:.28rem .7rem .28rem 0;border-bottom:1px solid var(--rule)}
th:last-child,td:last-child{padding-right:0}
thead th{vertical-align:bottom;border-bottom:2px solid var(--ink);font-weight:700}
tbody th{font-weight:400}
td.n,th.n{text-align:right;white-space:nowrap;padding-left:.5rem}
thead th.n{white-space:normal}
table.prose{width:100%}
table.prose td,table.prose th{overflow-wrap:break-word}
table.wide.prose td:nth-last-child(2){min-width:11rem}
table.prose tbody th{font-weight:700;min-width:8rem}
figure{margin:1.25rem 0;break-inside:avoid}
figcaption{font-weight:700;max-width:44rem}
figure .frame{margin:.5rem 0}
figure .note{margin:0}
figure.half{margin:.6rem 0}
figure.half svg.wide{display:none}figure.half svg.narrow{display:block;min-width:0}
.readout{font-size:.875rem;line-height:1.35;min-height:2.7em;margin:0;border-left:3px solid var(--ink);padding-left:.6rem}
.readout:empty{display:none}
details{margin:.4rem 0 0}
summary{cursor:pointer;font-size:.875rem;color:var(--soft);width:fit-content}
.fold>summary{font-size:1rem;color:var(--ink);font-weight:700}
summary:focus-visible{outline:2px solid var(--ink);outline-offset:2px}
${CHART_STYLE}@media (max-width:36rem){body{font-size:15px;padding:1rem .9rem 3rem}h1{font-size:1.4rem}.lead{font-size:1.08rem}table.prose tbody th{min-width:6rem}}
@page{margin:15mm 14mm;@bottom-right{content:counter(page) " / " counter(pages);font:8pt system-ui,Arial,sans-serif}}
@media print{.skip,nav,.readout,details:not([open]){display:none}:root{--paper:#fff;--ink:#000;--soft:#444;--rule:#999;--band:#fff;color-scheme:light}body{font-size:9.6pt;line-height:1.4;max-width:none;padding:0}h1{font-size:17pt}h2{font-size:13pt;margin-top:13pt}h2,h3,.caption,.lead{break-after:avoid;break-inside:avoid}.caption{font-size:8.6pt;margin:9pt 0 1pt}table.wide{min-width:0}table.wide.prose td:nth-last-child(2){min-width:50mm}h2.page{break-before:page;margin-top:0}.lead{font-size:12pt}table{font-size:8.2pt;line-height:1.25}tr,table:not(:has(tr:nth-child(7))){break-inside:avoid}thead{display:table-header-group}.frame{overflow:visible;margin:7pt 0}td.n,th.n{padding-left:.2rem}th,td{padding:.16rem .5rem .16rem 0}figure svg{max-height:92mm}figure:has(.readout) svg{max-height:118mm}.frame+.note{break-before:avoid}figure.half svg{max-height:70mm}.figures{grid-template-columns:repeat(4,1fr);gap:4mm}.figures .value{font-size:15pt}.figures dt{font-size:8.6pt}figure{margin:8pt 0}p,li{max-width:none}li{margin:1.2pt 0}.note{font-size:8.6pt}.beside{gap:0 8mm}.beside.even{gap:0 6mm}.beside.even>div{flex:1 1 45mm}.beside li{font-size:9pt;line-height:1.35}ul{margin:3pt 0}}
`;
