#include "fleet/value_checks.h"

#include <fmt/format.h>

#include "fleet/reader.h"
#include "service/cautions.h"
#include "service/text.h"

namespace service::fleet {

bool check_name(std::string_view name, const Spot& spot, Diagnostics& diagnostics) {
  if (is_name(name)) return true;
  const std::string fitting = as_name(name);
  diagnostics.error(code::bad_name, spot,
                    fmt::format("{} is not a name: lower-case letters, digits and hyphens", in_quotes(name)),
                    fitting.empty() ? "write a name of lower-case letters, digits and hyphens, such as pump-2"
                                    : fmt::format("write `{}`", fitting));
  return false;
}

bool check_season_name(const std::string& name, const Spot& spot, Diagnostics& diagnostics) {
  if (name != "per-year" && !parse_day(name)) return true;
  diagnostics.error(code::bad_name, spot, fmt::format("a season cannot be called `{}`", name),
                    "elsewhere this word means a day, or the whole year; give the season another name");
  return false;
}

bool check_position(const std::string& position, std::unordered_set<std::string>& seen, const Spot& spot,
                    Diagnostics& diagnostics) {
  const bool edges = position.empty() || position.front() == ' ' || position.back() == ' ';
  if (edges || position.find_first_of("@/,;\n\r\t") != std::string::npos) {
    // TASK@POSITION and lists of names are written on the command line and in files of facts.
    diagnostics.error(code::bad_position, spot, fmt::format("{} cannot name a position", in_quotes(position)),
                      "use a short name on one line, without @ / , ; such as front-left");
    return false;
  }
  if (seen.insert(position).second) return true;
  diagnostics.error(code::repeated_value, spot, fmt::format("the position {} is here twice", in_quotes(position)),
                    "give each position its own name");
  return false;
}

bool check_caution(std::string_view written, const Spot& spot, Diagnostics& diagnostics) {
  if (!is_caution_name(written) || caution(written) != nullptr) return true;
  std::vector<std::string> names;
  for (const Caution& known : caution_catalogue()) names.emplace_back(known.name);
  std::string all = "write a sentence of your own, or one of: ";
  for (std::size_t i = 0; i < names.size(); ++i) all += (i == 0 ? "" : ", ") + names[i];
  diagnostics.error(code::unknown_caution, spot, fmt::format("there is no caution called {}", in_quotes(written)),
                    nearest_or(written, names, std::move(all)));
  return false;
}

bool check_has_tasks(bool has_tasks, const Spot& spot, Diagnostics& diagnostics) {
  if (has_tasks) return true;
  diagnostics.error(code::no_tasks, spot, "the schedule has no tasks, so nothing would ever come due",
                    "write its tasks, each under its name with `do:` and `every:`");
  return false;
}

bool check_way(const TravelRow& way, std::set<std::pair<std::string, std::string>>& seen, const Spot& spot,
               Diagnostics& diagnostics) {
  if (way.from == way.to) {
    diagnostics.error(code::way_to_itself, spot, fmt::format("a row leads from `{}` to itself", cleaned(way.from)),
                      "delete it: within a site nobody drives");
    return false;
  }
  if (seen.emplace(way.from, way.to).second) return true;
  diagnostics.error(code::repeated_value, spot,
                    fmt::format("the way from `{}` to `{}` is here twice", cleaned(way.from), cleaned(way.to)),
                    "keep one of them");
  return false;
}

bool check_call(const Call& call, bool names_site, bool names_machine, const Spot& spot, Diagnostics& diagnostics) {
  if (names_site == names_machine) {
    diagnostics.error(code::site_or_machine, spot,
                      fmt::format("the call `{}` needs either `site` or `machine`", cleaned(call.key)),
                      "name the machine where there is one; its site is known");
  }
  const bool backwards = call.from && call.by && *call.from > *call.by;
  if (backwards) {
    diagnostics.error(code::from_after_by, spot,
                      fmt::format("the call `{}` is wanted from {}, but by {}", cleaned(call.key), to_text(*call.from),
                                  to_text(*call.by)),
                      "write the earlier day under `from:`");
  }
  return names_site != names_machine && !backwards;
}

}  // namespace service::fleet
