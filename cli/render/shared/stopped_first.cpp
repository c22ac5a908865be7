#include "render/shared/stopped_first.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "render/shared/headings.h"
#include "render/shared/markdown.h"
#include "render/shared/point_markdown.h"
#include "render/shared/point_rows.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::MachineUse;
using service::NotToRun;

// Those that are not out of use, which are told with their reasons anyhow.
SaidLines to_be_mended(const std::vector<MachineUse>& not_in_use, const NotToRun& stopped, const std::string& command) {
  SaidLines lines;
  for (const service::Machine* machine : stopped.machines()) {
    const bool told = std::any_of(not_in_use.begin(), not_in_use.end(), [&](const MachineUse& use) {
      return use.machine == machine && use.state.kind == service::UseKind::out_of_use;
    });
    if (!told) lines.emplace_back(machine->key, fmt::format("see {} due {}", command, machine->key));
  }
  return lines;
}

bool stands_at(const service::Machine& machine, const service::Site* site) {
  return site == nullptr || machine.site == site->key;
}

SaidLines to_be_mended(const service::DueList& list, const service::Site* site) {
  SaidLines lines;
  for (const service::RunBan& ban : run_bans(list)) {
    if (stands_at(*ban.machine, site) && !ban.out_of_use()) lines.emplace_back(ban.machine->key, to_mend_words(ban));
  }
  return lines;
}

std::string below_title(const SaidLines& lines, const Look& look) {
  return lines.empty() ? "" : '\n' + heading(look, not_before_mended_title) + said_rows(lines, look);
}

std::string as_items(const SaidLines& lines) {
  std::string text;
  for (const auto& [machine, words] : lines) {
    text += fmt::format("- **{}**: {}: {}\n", markdown_cell(machine), not_before_it_is_mended, markdown_cell(words));
  }
  return text;
}

}  // namespace

std::string stopped_first(const std::vector<MachineUse>& not_in_use, const NotToRun& stopped, const Look& look) {
  return out_of_use_first(not_in_use, look) + below_title(to_be_mended(not_in_use, stopped, look.command), look);
}

std::string stopped_first(const service::DueList& list, const Look& look, const service::Site* site) {
  std::vector<MachineUse> not_in_use;
  std::copy_if(list.not_in_use.begin(), list.not_in_use.end(), std::back_inserter(not_in_use),
               [&](const MachineUse& use) { return stands_at(*use.machine, site); });
  return out_of_use_first(not_in_use, look) + below_title(to_be_mended(list, site), look);
}

std::string markdown_stopped(const std::vector<MachineUse>& not_in_use, const NotToRun& stopped,
                             const std::string& command) {
  return markdown_out_of_use(not_in_use) + as_items(to_be_mended(not_in_use, stopped, command));
}

std::string markdown_stopped(const service::DueList& list) {
  return markdown_out_of_use(list.not_in_use) + markdown_to_be_mended(list, nullptr);
}

std::vector<std::string> to_be_mended_lines(const service::DueList& list, const service::Site* site) {
  std::vector<std::string> lines;
  for (const auto& [machine, words] : to_be_mended(list, site)) {
    lines.push_back(fmt::format("{}: {}: {}", not_before_mended_title, machine, words));
  }
  return lines;
}

std::string markdown_to_be_mended(const service::DueList& list, const service::Site* site) {
  return as_items(to_be_mended(list, site));
}

}  // namespace cli
