// All files of a fleet together: read each, check what holds between them, and give either the fleet or every
// diagnostic.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/checksum.h"
#include "fleet/compiled.h"
#include "fleet/conclude.h"
#include "fleet/fleet_file.h"
#include "fleet/fleet_sections.h"
#include "fleet/index.h"
#include "fleet/register.h"
#include "fleet/schedules.h"
#include "fleet/travel_table.h"
#include "service/fleet_in_part.h"

namespace service {
namespace fleet {
namespace {

constexpr std::string_view schedules_folder = "schedules/";
constexpr std::string_view suffix = ".yaml";

bool has_suffix_of_yaml(std::string_view name) {
  std::string end;
  for (const char c : name.substr(std::min(name.size(), name.rfind('.')))) {
    end += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return end == ".yaml" || end == ".yml";
}

// The lines of a top-level key, where the file as a whole cannot be read.
struct PlacedLines {
  std::string lines;
  std::size_t first = 0;  // so many lines stand before them
};

PlacedLines placed_lines_of(std::string_view key, std::string_view text) {
  PlacedLines placed;
  auto& [lines, first] = placed;
  bool inside = false;
  while (!text.empty()) {
    const std::string_view line = text.substr(0, text.find('\n'));
    text.remove_prefix(std::min(text.size(), line.size() + 1));
    const bool begins = !line.empty() && line.find_first_of(" \t\r#") != 0;
    if (begins && inside) break;
    inside = inside || (line.starts_with(key) && line.substr(key.size()).starts_with(':'));
    if (inside) lines += std::string(line) + '\n';
    if (!inside) ++first;
  }
  return placed;
}

std::string lines_of(std::string_view key, std::string_view text) { return placed_lines_of(key, text).lines; }

std::optional<WrittenZone> time_zone_in(const std::string& name, std::string_view text) {
  const Source source(name, 0, text);
  Diagnostics diagnostics;
  const auto root = read_yaml(source, diagnostics);
  if (!root) return std::nullopt;
  Draft draft;
  read_fleet_file(Reader(source, diagnostics, draft), *root);
  for (const Entry& entry : root->entries) {
    if (entry.key.text == "time-zone") return WrittenZone{draft.fleet.time_zone, source.place(entry.value.span)};
  }
  return std::nullopt;
}

std::optional<Mail> mail_in(std::string_view text) {
  const Source source("fleet.yaml", 0, text);
  Diagnostics diagnostics;
  Draft draft;
  const auto root = read_yaml(source, diagnostics);
  if (!root) return std::nullopt;
  Mail mail = read_mail(Reader(source, diagnostics, draft), *root);
  return mail.to.empty() ? std::nullopt : std::optional(std::move(mail));
}

std::string table_in(std::string_view text) {
  const Source source("fleet.yaml", 0, text);
  Diagnostics diagnostics;
  Draft draft;
  const auto root = read_yaml(source, diagnostics);
  return root ? travel_table_in(Reader(source, diagnostics, draft), *root) : std::string();
}

// What the lines of one key say by themselves, whatever else is wrong.
Fleet by_lines_of(std::string_view key, const FleetFiles& files) {
  const auto found = files.texts.find("fleet.yaml");
  if (found == files.texts.end()) return {};
  const std::string lines = lines_of(key, without_bom(found->second));
  const Source source("fleet.yaml", 0, lines);
  Diagnostics diagnostics;
  Draft draft;
  if (const auto root = read_yaml(source, diagnostics)) read_fleet_file(Reader(source, diagnostics, draft), *root);
  return std::move(draft.fleet);
}

std::uint64_t checksum_of(const FleetFiles& files) {
  Checksum sum;
  for (const auto& [name, text] : files.texts) {
    sum.add(name);
    sum.add(text);
  }
  return sum.value();
}

class FleetReader {
 public:
  explicit FleetReader(const FleetFiles& files) : files_(files) {}

  Fleet read() {
    read_main_file();
    if (const auto found = files_.texts.find("register.csv"); found != files_.texts.end()) {
      // Spreadsheets save UTF-16 too. Where it is broken, the reader says that it is no UTF-8.
      register_.emplace(found->first, from_utf16(found->second).value_or(found->second));
      read_register(source_of(*register_), diagnostics_, draft_);
    }
    if (draft_.travel_table) read_table();
    for (const auto& file : files_.texts) {
      if (file.first.starts_with(schedules_folder)) read_schedule_file(file);
    }
    return conclude(std::move(draft_), diagnostics_, {main_, {}});
  }

 private:
  using File = std::pair<const std::string, std::string>;

  const Source& source_of(const File& file) {
    sources_.push_back(std::make_unique<Source>(shown_name(files_, file.first), static_cast<int>(sources_.size()),
                                                without_bom(file.second)));
    return *sources_.back();
  }

  void read_main_file() {
    const auto found = files_.texts.find("fleet.yaml");
    if (found == files_.texts.end()) {
      static const File missing{"fleet.yaml", ""};
      main_ = &source_of(missing);
      diagnostics_.error(code::no_fleet_file, {main_, whole_file}, "there is no such file",
                         "write it, at least with `fleet:`");
    } else {
      main_ = &source_of(*found);
      if (const auto root = read_yaml(*main_, diagnostics_)) {
        read_fleet_file(Reader(*main_, diagnostics_, draft_), *root);
        return;
      }
    }
    draft_.unsure.fill(true);
  }

  void read_table() {
    const std::string& name = draft_.fleet.travel->table;
    const auto found = files_.texts.find(name);
    if (found == files_.texts.end()) {
      diagnostics_.error(code::no_travel_table, *draft_.travel_table,
                         fmt::format("there is no file {} beside fleet.yaml", in_quotes(name)),
                         "write it, with the columns from,to,minutes,km; or leave `table` out");
      return;
    }
    table_.emplace(found->first, from_utf16(found->second).value_or(found->second));
    read_travel_table(source_of(*table_), diagnostics_, draft_);
  }

  void read_schedule_file(const File& file) {
    const std::string_view name = std::string_view(file.first).substr(schedules_folder.size());
    if (!has_suffix_of_yaml(name)) return;
    const Source& source = source_of(file);
    const std::string stem(name.substr(0, name.rfind('.')));
    if (!name.ends_with(suffix)) {
      diagnostics_.error(code::wrong_suffix, {&source, whole_file}, "the name of a schedule's file ends with .yaml",
                         fmt::format("rename it to {}{}{}", schedules_folder, cleaned(stem), suffix));
      draft_.unread_schedules.insert(stem);
    } else if (const auto root = read_yaml(source, diagnostics_)) {
      draft_.schedules.push_back(read_schedule(Reader(source, diagnostics_, draft_), *root, stem));
    } else {
      draft_.unread_schedules.insert(stem);
    }
  }

  const FleetFiles& files_;
  std::vector<std::unique_ptr<Source>> sources_;  // spots point at them
  const Source* main_ = nullptr;
  std::optional<File> register_;  // as UTF-8; so the travel table
  std::optional<File> table_;
  Diagnostics diagnostics_;
  Draft draft_;
};

}  // namespace

std::string travel_table_of(std::string_view fleet_yaml) {
  const std::string_view text = without_bom(fleet_yaml);
  if (text.find("travel") == std::string_view::npos) return {};
  // Its own lines are soon parsed. Only where they are not written as such is all of the file.
  std::string table = table_in(lines_of("travel", text));
  return table.empty() && text.find("table") != std::string_view::npos ? table_in(text) : table;
}

}  // namespace fleet

Fleet read_fleet(const FleetFiles& files) {
  auto known = fleet::from_compiled(files);
  if (known) fleet::make_index(*known);
  Fleet read = known ? std::move(*known) : fleet::FleetReader(files).read();
  read.files_checksum = fleet::checksum_of(files);
  return read;
}

std::optional<Mail> mail_of(const FleetFiles& files) {
  const auto found = files.texts.find("fleet.yaml");
  if (found == files.texts.end()) return std::nullopt;
  const std::string_view text = fleet::without_bom(found->second);
  if (auto mail = fleet::mail_in(text)) return mail;
  return fleet::mail_in(fleet::lines_of("mail", text));
}

std::string name_of(const FleetFiles& files) { return fleet::by_lines_of("fleet", files).name; }

WrittenZone time_zone_of(const FleetFiles& files) {
  const auto found = files.texts.find("fleet.yaml");
  if (found == files.texts.end()) return {};
  const std::string name = fleet::shown_name(files, found->first);
  const std::string_view text = fleet::without_bom(found->second);
  if (auto zone = fleet::time_zone_in(name, text)) return *zone;
  const auto [lines, first] = fleet::placed_lines_of("time-zone", text);
  auto zone = fleet::time_zone_in(name, std::string(first, '\n') + lines);
  return zone.value_or(WrittenZone{});
}

std::string compile_fleet(const FleetFiles& files, const Fleet& fleet) {
  if (fleet.files_checksum != fleet::checksum_of(files)) return {};
  return fleet::compiled(files, fleet);
}

bool is_compiled(const FleetFiles& files) { return fleet::is_of(files); }

}  // namespace service
