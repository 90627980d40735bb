/**
 * The look of the charts. One language throughout: the more work, the more ink. Work of a machine is a filled bar, the
 * robot's hand a dark one, waiting is dotted, standing still is hatched, empty is bare; so they can be told apart
 * without colour. Textures are dashes of thick lines, which need no names that a page would have to keep unique.
 */

const LIGHT =
  '--work:#9cc0b4;--edge:#386457;--robot:#1b3f5f;--wait:#a3460c;--stop:#74346b;--gain:#2c6b5a;--loss:#a3460c';
const DARK =
  '--work:#3b6f62;--edge:#93cbbb;--robot:#a9cdec;--wait:#f2a06a;--stop:#dba0cf;--gain:#86cbb6;--loss:#f2a06a';

export const CHART_STYLE = `svg{${LIGHT};display:block;width:100%;height:auto;font:13px/1 system-ui,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif;fill:var(--ink)}
@media (prefers-color-scheme:dark){svg{${DARK}}}
svg.wide{max-width:62rem}
svg.narrow{display:none;max-width:30rem;min-width:20rem}
svg .axis{stroke:var(--soft);fill:none}
svg .grid{stroke:var(--rule);stroke-width:.6;fill:none}
svg .part{font-size:12px;pointer-events:none}
svg .tick{fill:var(--soft);font-size:12px}
svg .line{fill:none;stroke:var(--ink);stroke-width:2}
svg .thin{fill:none;stroke:var(--ink);stroke-width:1}
svg .dash{stroke-dasharray:9 5}
svg .dots{stroke-dasharray:2 4;stroke-width:2.6;stroke-linecap:round}
svg .mark{fill:var(--paper);stroke:var(--ink);stroke-width:2}
svg .full{fill:var(--ink);stroke:var(--ink)}
svg .open{fill:var(--paper);stroke:var(--ink)}
svg .strong{font-weight:700}
svg .over{paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}
svg .trip{fill:none;stroke:var(--robot);stroke-linecap:butt}
svg .gap{stroke-dasharray:5 4;stroke:var(--soft)}
svg .head{fill:var(--robot);stroke:var(--paper);stroke-width:1}
svg .ground{fill:var(--paper);stroke:none}
svg .figure{font-variant-numeric:tabular-nums}
svg .plan{stroke:var(--ink);stroke-width:1;stroke-dasharray:3 3;fill:none}
svg .work{fill:var(--work);stroke:var(--edge);stroke-width:.8}
svg .robot{fill:var(--robot);stroke:var(--robot);stroke-width:.4}
svg .go{fill:none;stroke:var(--robot);stroke-width:1.6}
svg .bare{fill:none;stroke:var(--soft);stroke-width:.8}
svg .hatch{fill:none;stroke-dasharray:1.6 2.6}
svg .stipple{fill:none;stroke-width:2;stroke-linecap:round;stroke-dasharray:0 4}
svg .of-work{stroke:var(--edge)}
svg .of-robot{stroke:var(--robot)}
svg .of-wait{stroke:var(--wait)}
svg .of-stop{stroke:var(--stop)}
svg .box-wait{fill:none;stroke:var(--wait);stroke-width:.8}
svg .box-stop{fill:none;stroke:var(--stop);stroke-width:.8}
svg .gain{fill:var(--gain);stroke:var(--gain)}
svg .loss{fill:var(--paper);stroke:var(--loss);stroke-width:1.4}
svg .touch{fill:transparent;stroke:none}
svg .move{outline:none;cursor:default}
svg .move:hover .touch,svg .move:focus .touch{stroke:var(--ink);stroke-width:1.5}
@media screen and (max-width:46rem){svg.wide{display:none}svg.narrow{display:block}}
@media print{svg{${LIGHT};print-color-adjust:exact}svg.wide{max-width:180mm}}
`;
