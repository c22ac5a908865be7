// How it is kept what was handed over: a line a fact, the checksum of all of them last.
//
//   overdue list as mailed, 1
//   fleet<TAB>Skarvey estate
//   on<TAB>2026-06-15
//   word<TAB>2026-06-15
//   no-lists<TAB>1
//   overdue<TAB>point loader engine-oil<TAB>fitted 2025-03-02 ...<TAB>usage:engine=~1260<TAB>calendar:=3
//   checksum<TAB>0123456789abcdef
//
// `~`: by estimate.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include "service/overdue_news.h"
#include "standing/kept_lines.h"

namespace service {
namespace {

constexpr std::string_view first_line = "overdue list as mailed, 1\n";
constexpr std::string_view first_line_of_no_lists = "no list, as mailed, 1\n";
constexpr char by_estimate = '~';

std::optional<OverdueHeading> heading_named(std::string_view text) {
  constexpr std::array all{OverdueHeading::out_of_use, OverdueHeading::do_not_run,     OverdueHeading::overdue,
                           OverdueHeading::seen,       OverdueHeading::read_the_meter, OverdueHeading::find_out,
                           OverdueHeading::put_off,    OverdueHeading::laid_up};
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
    std::string_view digits = fields[i].substr(equals + 1);
    SaidOver over;
    over.by_estimate = digits.starts_with(by_estimate);
    if (over.by_estimate) digits.remove_prefix(1);
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), over.far);
    if (error != std::errc{} || end != digits.data() + digits.size()) return std::nullopt;
    entry.over[std::string(fields[i].substr(0, equals))] = over;
  }
  return entry;
}

}  // namespace

std::string to_text(const Handed& handed) {
  std::string text(first_line);
  text += fmt::format("fleet\t{}\non\t{}\n", handed.fleet, to_text(handed.on));
  if (handed.word) text += fmt::format("word\t{}\n", to_text(*handed.word));
  if (handed.no_lists != 0) text += fmt::format("no-lists\t{}\n", handed.no_lists);
  for (const SaidEntry& entry : handed.entries) {
    text += fmt::format("{}\t{}\t{}", to_text(entry.heading), entry.name, entry.since);
    for (const auto& [limb, over] : entry.over) {
      text += fmt::format("\t{}={}{}", limb, over.by_estimate ? std::string(1, by_estimate) : "", over.far);
    }
    text += '\n';
  }
  return sealed(std::move(text));
}

Parsed<Handed> parse_handed(std::string_view text, std::string_view fleet, Day today) {
  const auto lines = unsealed(text, first_line);
  if (!lines) return {{}, lines.problem};
  Handed handed;
  bool has_day = false;
  for (const std::string_view line : *lines) {
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
    } else if (line.starts_with("no-lists\t")) {
      const auto count = parse_count(line.substr(line.find('\t') + 1));
      if (!count) return {{}, is_damaged};
      handed.no_lists = *count;
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

std::string to_text(const NoLists& sent) {
  return sealed(fmt::format("{}{}\t{}\n", first_line_of_no_lists, sent.count, to_text(sent.last)));
}

Parsed<NoLists> parse_no_lists(std::string_view text) {
  const auto lines = unsealed(text, first_line_of_no_lists);
  if (!lines) return {{}, lines.problem};
  const auto fields = lines.value->empty() ? std::vector<std::string_view>{} : split(lines.value->front(), '\t');
  if (fields.size() != 2) return {{}, is_damaged};
  const auto count = parse_count(fields[0]);
  const auto last = parse_day(fields[1]);
  if (!count || !last) return {{}, is_damaged};
  return {NoLists{*count, *last}, {}};
}

bool owes_whole_list(const Handed* before, const NoLists& sent) {
  return (before == nullptr ? 0 : before->no_lists) != sent.count;
}

}  // namespace service
