#include "render/report/parts_of_page.h"

namespace cli {

// One scale for the whole page: where an interval ends is the same stroke in every row, so it runs down a list as one
// line, and the eye sees what reaches past it. Parts are ruled off like the pages of a book that is kept by hand. A row
// becomes a block on a telephone and on small paper; A4 has room for the columns.
std::string_view report_rules() {
  return R"css(
body { max-width: 64rem; }
.skip { position: absolute; left: -100rem; }
.skip:focus { position: static; }
.head { border-bottom: 3px double var(--ink); margin-bottom: .6rem; }
.head h1 { font-size: 2rem; margin: 0; }
.head p { margin: .2rem 0 .4rem; }
.head .day { font-size: 1.15rem; }
.contents ul { list-style: none; margin: 0; padding: 0; }
.contents a { display: block; padding: .55rem 0; text-decoration: none; border-bottom: 1px solid var(--line); }
.contents a b { text-decoration: underline; text-underline-offset: .2em; }
.contents span { color: var(--quiet); }
.contents .numbers label { padding: .55rem 0; font-weight: bold; }
.contents .keys { columns: 14rem; column-gap: 2rem; }
.contents .keys li { break-inside: avoid; }
.numbers label { cursor: pointer; min-height: 1.5rem; }
.numbers label { display: inline-block; padding: .2rem 0; }
.numbers:has(:checked) [hidden] { display: block; content-visibility: visible; }
@supports not selector(:has(*)) { .numbers [hidden] { display: block; content-visibility: visible; } }
.part { border-top: 2px solid var(--ink); margin-top: 2.4rem; }
.part h2 { margin-top: .5rem; }
.stop { border: 4px solid var(--ink); padding: .1rem .7rem .4rem; margin: .6rem 0; }
.stop h3 { margin-top: .4rem; }
p.stop { font-weight: bold; padding: .4rem .7rem; }
.said { margin: .3rem 0; display: grid; grid-template-columns: 11rem minmax(0, 1fr); gap: .4rem 1rem; }
.said dt { font-weight: bold; }
.mind { border-left: 4px solid var(--ink); padding: .2rem 0 .2rem .7rem; margin: .8rem 0; }
.on, .num, .day { white-space: nowrap; }
th[scope=col] { overflow-wrap: break-word; }
caption.told { position: absolute; left: 0; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; white-space: nowrap; }
.points { --end: 66.667%; position: relative; }
.points th, .points td { font-weight: normal; padding: .4rem .9rem .4rem 0; }
.points thead th { color: var(--quiet); font-size: .875rem; vertical-align: bottom; border-bottom-width: 2px; }
.points .stands { width: 9.5rem; }
.points .what { width: 12rem; }
.points .bars { width: 22%; padding-right: 0; background: linear-gradient(var(--ink), var(--ink))
  var(--end) 0 / 1.5px 100% no-repeat; }
.points thead .bars { background-size: 1.5px .6rem; background-position: var(--end) 100%; position: relative; }
.points thead .end { position: absolute; left: var(--end); bottom: .35rem; padding-left: .35rem; }
.points thead .bars span:first-child { display: block; width: var(--end); padding-right: .4rem; }
.points .bars.told { background: none; }
.points .words { padding-left: 1rem; padding-right: 0; }
.points svg.use { width: 100%; height: 1.55rem; }
.points svg.use rect { vector-effect: non-scaling-stroke; }
.points .when { display: block; font-size: .9375rem; margin-top: .15rem; font-variant-numeric: tabular-nums; }
.task { font-weight: bold; }
.doing, .where { display: block; font-size: .9375rem; }
.where { color: var(--quiet); }
.state { display: block; font-size: .9375rem; }
.bars-key { max-width: 44rem; font-size: .9375rem; }
.needs th, .needs td { overflow-wrap: break-word; }
.needs td:last-child, .needs th:last-child { width: 32%; }
.needs .num { white-space: normal; min-width: 4.4rem; }
.rows .group th { padding-top: .9rem; font-weight: bold; }
.plot .reading.doubtful { stroke-dasharray: 2 1.5; }
.points .task, .points .whose { display: block; }
.season .task::after { content: " of"; font-weight: normal; color: var(--quiet); }
.season .day { font-variant-numeric: tabular-nums; }
.season .what { width: 14.5rem; }
.season .odds { width: 8.5rem; }
.season .remarks { width: 30%; }
.book td:nth-child(4) { font-variant-numeric: tabular-nums; }
th[scope=row] { font-weight: normal; }
figure { margin: .6rem 0; max-width: 34rem; }
figcaption { font-weight: bold; }
svg.plot { display: block; width: 100%; height: auto; }
.plot text { font: 10px system-ui, "Liberation Sans", sans-serif; fill: var(--ink); }
.plot .grid { stroke: var(--line); stroke-width: .4; }
.plot .axis { stroke: var(--ink); stroke-width: 1; }
.plot .up-to { fill: none; stroke: var(--line); stroke-width: .8; }
.plot .band { fill: var(--line); stroke: none; }
.plot .middle { fill: none; stroke: var(--ink); stroke-width: 1.6; }
.plot polyline.middle { stroke-dasharray: 5 3; }
.plot .known { fill: none; stroke: var(--ink); stroke-width: 2; }
.plot .reading { fill: var(--page); stroke: var(--ink); stroke-width: 1.3; }
.plot .today { stroke: var(--ink); stroke-width: .8; stroke-dasharray: 1 2; }
.plate { border: 3px double var(--ink); padding: .5rem .8rem .7rem; margin: 1rem 0; }
.plate h2 { margin: 0; }
.cells { display: flex; flex-wrap: wrap; gap: .3rem 1.8rem; margin: .4rem 0 0; padding: 0; list-style: none; }
.cells .quiet { font-size: .875rem; }
.steps { columns: 2; column-gap: 2.2rem; }
.steps li { break-inside: avoid; }
.cautions { list-style: none; padding: 0; }
.cautions li { margin: .35rem 0; padding-left: .7rem; border-left: 4px solid var(--ink); }
.part.machine { border-top: 0; }
@media screen and (max-width: 46rem), print and (max-width: 32rem) {
  .points thead, .rows thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
  .points, .points tbody, .points tr, .points th, .points td, .rows, .rows caption:not(.told), .rows tbody,
  .rows tr { display: block; width: auto; border: 0; padding: 0; }
  .points tr, .rows tr { border-bottom: 1px solid var(--line); padding: .5rem 0; }
  .points .stands, .points .what, .points .bars, .season td, .season th, .needs td { width: auto !important; }
  .points .bars { background: none; }
  .points .words { padding: 0; }
  .points .stands { display: flex; flex-wrap: wrap; gap: 0 .6rem; align-items: baseline; }
  .points .task, .points .whose { display: inline; }
  .points .whose::before { content: "of "; color: var(--quiet); }
  .points .what { margin: .2rem 0 .3rem; }
  .rows caption { padding: .4rem 0; }
  .rows th, .rows td { display: inline; border: 0; padding: 0 .8rem 0 0; text-align: left; }
  .rows th[scope=row] { display: block; padding: 0; }
  .rows td[data-label]::before { content: attr(data-label) " "; color: var(--quiet); }
  .rows td:empty { display: none; }
  .season .day { display: block; font-weight: bold; }
  .season .odds .standing::before { content: none; }
  .season .remarks { display: block; }
  .rows .group th { display: block; }
  .book th[scope=row] { display: inline; }
  .book td::before { content: none !important; }
  .book td { padding-right: .5rem; }
}
@media (max-width: 38rem) {
  .head h1 { font-size: 1.5rem; }
  .said { display: block; }
  .said dd { margin-bottom: .6rem; }
  .steps { columns: 1; }
}
@media print {
  .contents span { color: inherit; }
  .contents a { padding: .1rem 0; }
  .points .bars { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  .points .stands { width: 21%; }
  .needs td[data-label=order] { white-space: nowrap; }
  .points .what { width: 19%; }
  .points .bars { width: 20%; }
  .rows th, .rows td, .points th, .points td { padding-top: .15rem; padding-bottom: .15rem; }
  .numbers [hidden] { display: block; content-visibility: visible; }
  .numbers.screen { display: none; }
  .numbers input { display: none; }
  .doing, .where { font-size: inherit; line-height: 1.15; }
  .book { font-size: 8pt; line-height: 1.15; }
  .book th, .book td { padding-top: .05rem; padding-bottom: .05rem; }
  .numbers label { font-weight: bold; }
  .part { margin-top: 1.2rem; }
  .plate { break-after: avoid; }
  figure { break-inside: avoid; max-width: 11cm; }
  a { text-decoration: none; }
}
)css";
}

}  // namespace cli
