// How it is kept what was handed over: a line a fact, the checksum of all of them last.
//
//   overdue list as mailed, 1
//   fleet<TAB>Skarvey estate
//   on<TAB>2026-06-15
//   word<TAB>2026-06-15
//   overdue<TAB>point loader engine-oil<TAB>fitted 2025-03-02 ...<TAB>usage:engine=1260<TAB>calendar:=3
//   checksum<TAB>0123456789abcdef
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "base/checksum.h"
#include "service/overdue_news.h"

namespace service {
namespace {

constexpr std::string_view first_line = "overdue list as mailed, 1\n";
constexpr std::string_view checksum_key = "checksum\t";

std::vector<std::string_view> split(std::string_view text, char mark) {
  std::vector<std::string_view> parts;
  for (;;) {
    const std::size_t end = text.find(mark);
    parts.push_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

std::optional<OverdueHeading> heading_named(std::string_view text) {
  constexpr std::array all{OverdueHeading::out_of_use,     OverdueHeading::overdue,  OverdueHeading::seen,
                           OverdueHeading::read_the_meter, OverdueHeading::find_out, OverdueHeading::put_off,
                           OverdueHeading::laid_up};
  const auto found = std::find_if(all.begin(), all.end(), [&](OverdueHeading one) { return to_text(one) == text; });
  return found == all.end() ? std::nullopt : std::optional(*found);
}

std::optional<SaidEntry> entry_of(std::string_view line) {
  const auto fields = split(line, '\t');
  constexpr std::size_t least = 3;
  if (fields.size() < least) return std::nullopt;
  const auto heading = heading_named(fields[0]);
  if (!heading) return std::nullopt;
  SaidEntry entry{std::string(fields[1]), std::string(fields[2]), *heading, {}};
  for (std::size_t i = least; i < fields.size(); ++i) {
    const std::size_t equals = fields[i].rfind('=');
    if (equals == std::string_view::npos) return std::nullopt;
    const std::string_view digits = fields[i].substr(equals + 1);
    std::int64_t far = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), far);
    if (error != std::errc{} || end != digits.data() + digits.size()) return std::nullopt;
    entry.over[std::string(fields[i].substr(0, equals))] = far;
  }
  return entry;
}

constexpr const char* not_ours = "is not what this program keeps";
constexpr const char* is_damaged = "is damaged";

}  // namespace

std::string to_text(const Handed& handed) {
  std::string text(first_line);
  text += fmt::format("fleet\t{}\non\t{}\n", handed.fleet, to_text(handed.on));
  if (handed.word) text += fmt::format("word\t{}\n", to_text(*handed.word));
  for (const SaidEntry& entry : handed.entries) {
    text += fmt::format("{}\t{}\t{}", to_text(entry.heading), entry.name, entry.since);
    for (const auto& [limb, far] : entry.over) text += fmt::format("\t{}={}", limb, far);
    text += '\n';
  }
  return text + fmt::format("{}{:016x}\n", checksum_key, checksum_of(text));
}

Parsed<Handed> parse_handed(std::string_view text, std::string_view fleet, Day today) {
  if (!text.starts_with(first_line)) return {{}, not_ours};
  const std::size_t last = text.rfind(checksum_key);
  if (last == std::string_view::npos || text[last - 1] != '\n') return {{}, is_damaged};
  const std::string_view told = text.substr(0, last);
  if (text.substr(last) != fmt::format("{}{:016x}\n", checksum_key, checksum_of(told))) return {{}, is_damaged};
  Handed handed;
  bool has_day = false;
  for (const std::string_view line : split(told.substr(first_line.size()), '\n')) {
    if (line.empty()) continue;
    if (line.starts_with("fleet\t")) {
      handed.fleet = line.substr(line.find('\t') + 1);
    } else if (line.starts_with("on\t")) {
      const auto day = parse_day(line.substr(line.find('\t') + 1));
      if (!day) return {{}, is_damaged};
      handed.on = *day;
      has_day = true;
    } else if (line.starts_with("word\t")) {
      handed.word = parse_day(line.substr(line.find('\t') + 1)).value;
      if (!handed.word) return {{}, is_damaged};
    } else if (auto entry = entry_of(line)) {
      handed.entries.push_back(std::move(*entry));
    } else {
      return {{}, is_damaged};
    }
  }
  if (!has_day) return {{}, is_damaged};
  if (handed.fleet != cleaned(fleet)) return {{}, "is of another fleet"};
  if (handed.on > today || handed.word > today) return {{}, "is of a later day than this one"};
  return {std::move(handed), {}};
}

}  // namespace service
