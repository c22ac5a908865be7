#include "render/shared/stopped_first.h"

#include <fmt/format.h>

#include "render/shared/headings.h"
#include "render/shared/markdown.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"

namespace cli {
namespace {

std::string below_title(std::string_view title, const SaidLines& lines, const Look& look) {
  return lines.empty() ? "" : '\n' + heading(look, title) + said_rows(lines, look);
}

}  // namespace

StoppedLines stopped_lines(const std::vector<service::RunBan>& bans) {
  StoppedLines lines;
  for (const service::RunBan& ban : bans) {
    if (ban.out_of_use()) {
      lines.out_of_use.emplace_back(ban.machine->key, ban_words(ban));
    } else {
      lines.to_be_mended.emplace_back(ban.machine->key, to_mend_words(ban));
    }
  }
  return lines;
}

std::string stopped_first(const std::vector<service::RunBan>& bans, const Look& look) {
  const auto [out_of_use, to_be_mended] = stopped_lines(bans);
  return below_title(out_of_use_title, out_of_use, look) + below_title(not_before_mended_title, to_be_mended, look);
}

std::string markdown_stopped(const std::vector<service::RunBan>& bans) {
  const auto [out_of_use, to_be_mended] = stopped_lines(bans);
  std::string text;
  for (const auto& [machine, words] : out_of_use) {
    text += fmt::format("- **{}**: do not run it: {}\n", markdown_cell(machine), markdown_cell(words));
  }
  for (const auto& [machine, words] : to_be_mended) {
    text += fmt::format("- **{}**: {}: {}\n", markdown_cell(machine), not_before_mended, markdown_cell(words));
  }
  return text;
}

}  // namespace cli
