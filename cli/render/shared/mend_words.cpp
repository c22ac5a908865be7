#include "render/shared/mend_words.h"

#include <fmt/format.h>

#include "render/shared/trip_words.h"
#include "render/shared/words.h"

namespace cli {

using service::cleaned;
using service::WaitsToMend;

namespace {

// `out of use: do not run; `, in front of all else.
std::string stands_words(const WaitsToMend& one) {
  if (one.state == nullptr) return "";
  return one.state->kind == service::UseKind::out_of_use ? "out of use: do not run; " : "laid up; ";
}

}  // namespace

std::string mend_words(const WaitsToMend& one) {
  return fmt::format("waits to be mended here: {}: {}{}; {}", cleaned(one.seen->machine->key), stands_words(one),
                     words_of(*one.seen),
                     one.call == nullptr ? "no call says how long it takes"
                                         : fmt::format("call {} may be for it", cleaned(one.call->key)));
}

std::vector<MendBlock> mend_blocks(const std::vector<const WaitsToMend*>& waiting) {
  MendBlock without{"Waits to be mended, and no call says how long it takes: make it a call", {}};
  MendBlock with{"Waits to be mended, and a call to the machine may be for it", {}};
  for (const WaitsToMend* one : waiting) {
    std::string text = stands_words(*one) + words_of(*one->seen);
    text += one->site == nullptr ? "; the fleet says no site for it" : "; at " + site_words(*one->site);
    if (one->call != nullptr) text += fmt::format("; call {}", cleaned(one->call->key));
    (one->call == nullptr ? without : with).lines.emplace_back(one->seen->machine->key, std::move(text));
  }
  std::vector<MendBlock> blocks;
  for (MendBlock* block : {&without, &with}) {
    if (!block->lines.empty()) blocks.push_back(std::move(*block));
  }
  return blocks;
}

void add_to_mend(CsvTable& table, const WaitsToMend& one, const service::Fleet& fleet,
                 const service::NotToRun& stopped) {
  const service::SeenSign& seen = *one.seen;
  CsvCells cells = cells_of("to-mend", *seen.machine, fleet);
  cells.insert(cells.end(), {{"task", csv_text(one.task)},
                             {"position", csv_text(one.position)},
                             {"call", one.call == nullptr ? "" : csv_text(one.call->key)},
                             {"sign", csv_text(seen.sign)},
                             {"on", to_text(seen.on.first)},
                             {"until", to_text(seen.on.last)},
                             {"fact", to_text(seen.fact)},
                             {"note", csv_text(seen.note)},
                             {"again_on", seen.again() == nullptr ? "" : to_text(seen.again()->on.first)},
                             {"found", std::string(to_text(one.found))},
                             {"do_not_run", yes_or_no(stopped.holds(*seen.machine))},
                             {"say", csv_text(words_of(seen))}});
  table.add(cells);
}

}  // namespace cli
