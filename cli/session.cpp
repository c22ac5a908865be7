#include "session.h"

#include <fmt/format.h>

#include <algorithm>
#include <system_error>

#include "mistakes.h"
#include "service/fleet_in_part.h"
#include "service/telling.h"
#include "today.h"

namespace cli {
namespace {

using service::Failure;
using service::FailureKind;

bool is_there(const std::filesystem::path& file) {
  std::error_code error;
  // What cannot be looked at is not "not there": opening it will say why.
  return std::filesystem::status(file, error).type() != std::filesystem::file_type::not_found;
}

template <class Thing>
[[noreturn]] void several(const std::string& written, const std::vector<const Thing*>& things, std::string_view what) {
  std::vector<std::string> keys;
  for (const Thing* thing : things) keys.push_back(thing->key);
  const std::string last = keys.back();
  keys.pop_back();
  wrong("several-names", fmt::format("`{}` may mean {} {}", written, things.size(), what),
        fmt::format("write which: {} or {}", fmt::join(keys, ", "), last));
}

template <class Thing>
std::string near_or_all(const std::vector<std::string>& near, const std::vector<Thing>& things, std::string_view none) {
  if (!near.empty()) return service::did_you_mean(near);
  std::vector<std::string> keys;
  for (const Thing& thing : things) keys.push_back(thing.key);
  return service::names_instead("", keys, none);
}

// A name of something else, where a machine was to be named.
std::string other_kind(const service::Fleet& fleet, const std::string& written) {
  if (const auto* site = site_named(fleet, written).one) {
    return fmt::format("`{}` is a site; its machines: --site {}", written, site->key);
  }
  for (const service::Schedule& schedule : fleet.schedules) {
    if (schedule.task(written) != nullptr) {
      return fmt::format("`{0}` is a task; the machine comes before it: MACHINE {0}", written);
    }
  }
  return "";
}

}  // namespace

std::filesystem::path fleet_folder(const Context& context) {
  if (const auto given = context.arguments.value("fleet")) {
    if (!given->empty()) return (context.world.folder / *given).lexically_normal();
    wrong("empty-value", "`--fleet` is empty", "name the folder that holds fleet.yaml");
  }
  if (const auto given = context.world.variable("WHICHEVER_FLEET"); given && !given->empty()) {
    return (context.world.folder / *given).lexically_normal();
  }
  std::error_code error;
  const auto start = std::filesystem::absolute(context.world.folder, error).lexically_normal();
  if (is_there(context.world.folder / "fleet.yaml")) return context.world.folder;
  for (auto folder = start; !error; folder = folder.parent_path()) {
    if (is_there(folder / "fleet.yaml")) return folder;
    if (folder == folder.parent_path()) break;
  }
  throw Failure(FailureKind::not_found,
                {"no-fleet", fmt::format("there is no fleet.yaml in {} or in any folder above it", start.string()),
                 "go to the fleet's folder, or name it with --fleet DIR or WHICHEVER_FLEET; "
                 "`whichever new DIR` starts one"});
}

namespace {

std::string_view words_of(service::RecordWork work) {
  switch (work) {
    case service::RecordWork::reading:
      return "reading the record";
    case service::RecordWork::storing:
      return "storing";
    case service::RecordWork::working_out:
      return "working out what is kept beside the facts";
  }
  return "";
}

bool asks_the_clock(const Context& context) {
  const auto as_of = context.arguments.value("as-of");
  return !as_of || service::counts_from_today(*as_of);
}

// Among those of fleet.yaml, where it is written.
void add_in_its_place(service::Diagnostic found, std::vector<service::Diagnostic>& told) {
  const service::Place place = found.place.value_or(service::Place{});
  const auto behind = std::find_if(told.begin(), told.end(), [&](const service::Diagnostic& one) {
    return one.place && (one.place->file != place.file || one.place->line > place.line);
  });
  told.insert(behind, std::move(found));
}

// With every mistake in the files; that this computer does not know their time zone is one more, whether or not its
// clock is asked. The names of zones are this computer's, so the library that reads the files cannot know them.
service::Fleet read_whole_fleet(const service::FleetFiles& files) {
  std::optional<service::Fleet> fleet;
  std::vector<service::Diagnostic> told;
  try {
    fleet = service::read_fleet(files);
    if (!unknown_zone(fleet->time_zone)) return std::move(*fleet);
  } catch (const Failure& failure) {
    if (failure.kind() != FailureKind::bad_fleet) throw;
    told = failure.diagnostics();
  }
  const service::WrittenZone zone = service::time_zone_of(files);
  if (auto unknown = unknown_zone(fleet ? fleet->time_zone : zone.name)) {
    unknown->place = zone.place;
    add_in_its_place(std::move(*unknown), told);
  }
  throw Failure(FailureKind::bad_fleet, std::move(told));
}

}  // namespace

Session open_fleet(const Context& context) { return open_fleet(context, fleet_folder(context)); }

Session open_fleet(const Context& context, const std::filesystem::path& folder) {
  Session session;
  session.folder = folder;
  session.files = service::load_fleet_files(session.folder);
  if (session.folder == ".") session.files.folder.clear();
  session.fleet = std::make_shared<const service::Fleet>(read_whole_fleet(session.files));
  const auto as_of = context.arguments.value("as-of");
  const service::Day clock =
      asks_the_clock(context) ? day_in_zone(context.world.milliseconds(), session.fleet->time_zone) : service::Day{};
  session.today = day_option(context.arguments, "as-of", clock);
  session.day_is_given = as_of && !(asks_the_clock(context) && session.today == clock);
  return session;
}

service::Record open_record(Context& context, const std::filesystem::path& folder, service::Access access) {
  const auto file = folder / "record.db";
  if (!is_there(file)) {
    throw Failure(FailureKind::not_found,
                  {"no-record", fmt::format("there is no record {}, so nothing is known of any machine", file.string()),
                   // Where it was lost, a new one would hide that.
                   fmt::format("put back a backup: copy it to {}; only where there never was a record, start one: "
                               "whichever new {}",
                               file.string(), folder.string())});
  }
  auto record = service::Record::open(file, access);
  if (context.progress.is_wanted()) {
    record.watch([&line = context.progress](service::RecordWork work, std::size_t done, std::size_t all) {
      line.say(words_of(work), done, all);
    });
  }
  return record;
}

service::Progress telling(ProgressLine& line, std::string what) {
  if (!line.is_wanted()) return {};
  return [&line, what = std::move(what)](std::size_t done, std::size_t all) { line.say(what, done, all); };
}

const service::Machine& the_machine(const service::Fleet& fleet, const std::string& written) {
  try {
    return service::machine_told(fleet, written);
  } catch (const Failure& failure) {
    service::Diagnostic what = failure.diagnostics().front();
    const std::string other = what.cures.empty() ? other_kind(fleet, written) : "";
    if (what.code != "unknown-machine" || other.empty()) throw;
    what.hint = other;
    throw Failure(failure.kind(), std::move(what));
  }
}

const service::Site& the_site(const service::Fleet& fleet, const std::string& written) {
  const auto named = site_named(fleet, written);
  if (named.one != nullptr) return *named.one;
  if (!named.several.empty()) several(written, named.several, "sites");
  wrong("unknown-site", fmt::format("there is no site `{}` in this fleet", written),
        near_or_all(named.near, fleet.sites, "the fleet lists no sites"));
}

service::Scope scope_of(const Arguments& arguments, const service::Fleet& fleet, std::size_t first_machine) {
  std::vector<std::string> named = arguments.values("machine");
  if (first_machine < arguments.words.size()) {
    named.insert(named.end(), arguments.words.begin() + static_cast<std::ptrdiff_t>(first_machine),
                 arguments.words.end());
  }
  const auto site = arguments.value("site");
  if (named.empty() && !site) return {};
  service::Scope scope{std::vector<std::string>{}};
  if (site) {
    scope = service::scope_of_site(fleet, the_site(fleet, *site).key);
    if (named.empty()) return scope;
    scope.site.clear();  // those machines, and more
  }
  std::vector<std::string> machines;
  for (const std::string& written : named) machines.push_back(the_machine(fleet, written).key);
  machines.insert(machines.end(), scope.machines->begin(), scope.machines->end());
  scope.machines->clear();
  for (const std::string& machine : machines) {
    if (!scope.holds(machine)) scope.machines->push_back(machine);
  }
  return scope;
}

service::Scope only(const service::Machine& machine) { return {std::vector<std::string>{machine.key}}; }

const service::Season& the_season(const service::Fleet& fleet, const std::string& written) {
  const auto named = season_named(fleet, written);
  if (named.one != nullptr) return *named.one;
  if (!named.several.empty()) several(written, named.several, "seasons");
  wrong("unknown-season", fmt::format("there is no season `{}` in this fleet", written),
        near_or_all(named.near, fleet.seasons, "add one to fleet.yaml: seasons: {harvest: {from: 08-01, to: 09-20}}"));
}

std::string crew_told(const service::Fleet& fleet, const std::string& written) {
  std::vector<std::string> found;
  for (const service::Crew& crew : fleet.crews) {
    if (crew.key == written) return written;
    const std::string folded = service::folded_name(written);
    if (service::folded_name(crew.key) == folded || service::folded_name(crew.name) == folded) {
      found.push_back(crew.key);
    }
  }
  return found.size() == 1 ? found.front() : written;  // else the library says which there are
}

service::Day day_option(const Arguments& arguments, const std::string& name, service::Day today) {
  const auto written = arguments.value(name);
  if (!written) return today;
  const auto day = service::typed_day(*written, today);
  if (!day) {
    wrong("bad-day", fmt::format("`--{} {}` {}", name, *written, day.problem), std::string(service::forms_of_days));
  }
  return *day;
}

service::Day until_option(const std::string& written, service::Day today) {
  const auto day = service::typed_until(written, today);
  if (!day) {
    wrong("bad-day", fmt::format("`--until {}` {}", written, day.problem),
          "write a day as 2026-08-01, 01.08.2026, or how far ahead it is as +14d, +2w or +3m");
  }
  return *day;
}

service::Day horizon_option(const Arguments& arguments, const std::string& otherwise, service::Day today) {
  const std::string written = arguments.value("within").value_or(otherwise);
  const auto day = service::parse_horizon(written, today);
  if (!day) {
    wrong("bad-horizon", fmt::format("`--within {}` {}", written, day.problem),
          "write days, weeks or months as 30d, 6w or 3m");
  }
  return *day;
}

service::Day outlook_option(const Arguments& arguments, const std::string& otherwise, service::Day today) {
  const service::Day to = horizon_option(arguments, otherwise, today);
  if (to <= service::add_months(today, service::horizon_months)) return to;
  wrong("too-far", fmt::format("`--within {}` is more than five years", *arguments.value("within")),
        "nothing is said of use beyond five years; write 60m or less");
}

std::optional<std::size_t> first_option(const Arguments& arguments) {
  const auto written = arguments.value("first");
  if (!written) return std::nullopt;
  const auto count = service::parse_count(*written);
  if (!count || *count == 0) {
    wrong("bad-number", fmt::format("`--first {}` {}", *written, count ? "shows nothing" : count.problem),
          "write how many to show of each standing or block, such as 10");
  }
  return static_cast<std::size_t>(*count);
}

std::optional<service::Amount> amount_option(const Arguments& arguments, const std::string& name) {
  const auto written = arguments.value(name);
  if (!written) return std::nullopt;
  return service::amount_told(*written, "--" + name);
}

}  // namespace cli
