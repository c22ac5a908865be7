#include "render/shared/mend_words.h"

#include <fmt/format.h>

#include <array>

#include "render/shared/figures.h"
#include "render/shared/trip_words.h"
#include "render/shared/words.h"
#include "service/run_ban.h"

namespace cli {

using service::cleaned;
using service::WaitsToMend;

namespace {

// `out of use: do not run; `, in front of all else.
std::string stands_words(const WaitsToMend& one) {
  if (one.state == nullptr) return "";
  return one.state->kind == service::UseKind::out_of_use ? "out of use: do not run; " : "laid up; ";
}

// `fork@left found failed, seen 2026-06-02`, `tyre, tread-depth 15 mm, limit 15 mm, measured 2026-06-09`, `hoses, leak
// seen 2026-06-11`.
std::string what_words(const WaitsToMend& one) {
  if (one.seen != nullptr) return seen_words(*one.seen);
  std::string text = fmt::format("{}, {}", task_of(*one.point), words_of(*one.limb, *one.point));
  return one.measured() && one.limb->noticed_on ? text + ", measured " + to_text(*one.limb->noticed_on) : text;
}

}  // namespace

std::string words_of(const WaitsToMend& one) {
  const bool forbids = one.seen != nullptr ? forbids_running(*one.seen) : forbids_running(*one.point);
  return forbids ? fmt::format("{}; {}", what_words(one), not_before_mended) : what_words(one);
}

std::string measured_words(const service::LimbStanding& limb) {
  std::string text = limb.name;
  if (limb.measured) text += ' ' + to_text(*limb.measured);
  return limb.unit.empty() ? text : text + ' ' + limb.unit;
}

std::string mend_words(const WaitsToMend& one, const service::Machine* own) {
  // Where its machine is worked at, that nobody runs it before is said already.
  const bool here = own != nullptr && own->key == one.machine->key;
  return fmt::format("waits to be mended{}; {}",
                     here ? ": " + what_words(one)
                          : fmt::format(" here: {}: {}{}", cleaned(one.machine->key), stands_words(one), words_of(one)),
                     one.call == nullptr ? "no call says how long it takes"
                                         : fmt::format("call {} may be for it", cleaned(one.call->key)));
}

std::vector<MendBlock> mend_blocks(const std::vector<const WaitsToMend*>& waiting) {
  MendBlock without{"Waits to be mended, and no call says how long it takes: make it a call", {}};
  MendBlock with{"Waits to be mended, and a call to the machine may be for it", {}};
  for (const WaitsToMend* one : waiting) {
    std::string text = stands_words(*one) + words_of(*one);
    text += one->site == nullptr ? "; the fleet says no site for it" : "; at " + site_words(*one->site);
    if (one->call != nullptr) text += fmt::format("; call {}", cleaned(one->call->key));
    (one->call == nullptr ? without : with).lines.emplace_back(one->machine->key, std::move(text));
  }
  std::vector<MendBlock> blocks;
  for (MendBlock* block : {&without, &with}) {
    if (!block->lines.empty()) blocks.push_back(std::move(*block));
  }
  return blocks;
}

CsvColumns columns_of_to_mend() {
  static constexpr auto columns = std::to_array<std::string_view>(
      {"row",       "machine", "site",  "customer", "task",  "position",   "call",      "sign",
       "on",        "until",   "fact",  "note",     "found", "do_not_run", "say",       "again_on",
       "sightings", "name",    "value", "limit",    "unit",  "looked_on",  "looked_by", "looked_fact"});
  return columns;
}

void add_to_mend(CsvTable& table, const WaitsToMend& one, const service::Fleet& fleet) {
  CsvCells cells = cells_of("to-mend", *one.machine, fleet);
  cells.insert(cells.end(), {{"task", csv_text(one.task)},
                             {"position", csv_text(one.position)},
                             {"call", one.call == nullptr ? "" : csv_text(one.call->key)},
                             {"found", std::string(one.found ? to_text(*one.found) : "")},
                             {"say", csv_text(words_of(one))}});
  if (one.seen != nullptr) {
    add_sightings(cells, *one.seen);
  } else {
    cells.insert(cells.end(), {{"sign", csv_text(one.measured() ? measured_words(*one.limb) : one.limb->seen)},
                               {"on", figure(one.limb->noticed_on)},
                               {"until", figure(one.limb->noticed_on)},
                               {"fact", one.limb->fact ? to_text(*one.limb->fact) : ""}});
    if (one.measured()) {
      cells.insert(cells.end(), {{"name", csv_text(one.limb->name)},
                                 {"value", figure(one.limb->measured)},
                                 {"limit", to_text(one.limb->limit)},
                                 {"unit", csv_text(one.limb->unit)}});
    }
    add_open_sign(cells, *one.limb);
  }
  table.add(cells);
}

}  // namespace cli
