#include "property/twin_compare.h"

#include <fmt/format.h>

#include <map>
#include <memory>
#include <set>
#include <tuple>

#include "service/due_list.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"
#include "service/usage.h"
#include "twin/to_text.h"

namespace test {
namespace {

service::Day day_of(twin::Day day) { return service::Day{std::chrono::days{day}}; }

std::string text_of(const std::optional<service::Day>& day) { return day ? service::to_text(*day) : "none"; }
std::string text_of(const std::optional<twin::Day>& day) { return day ? twin::iso(*day) : "none"; }
std::string text_of(const std::optional<service::Amount>& amount) {
  return amount ? service::to_text(*amount) : "none";
}
std::string amount_text(const std::optional<twin::Amount>& amount) {
  return amount ? service::to_text(service::Amount{*amount}) : "none";
}

std::string standing_of(const service::Point& point) {
  if (point.by_estimate || point.standing == service::Standing::coming || point.standing == service::Standing::later) {
    return "unreached";
  }
  return point.standing == service::Standing::no_record ? "no-record" : std::string(service::to_text(point.standing));
}

std::string standing_of(const twin::PointAnswer& point) {
  switch (point.standing) {
    case twin::Standing::overdue:
      return "overdue";
    case twin::Standing::due:
      return "due";
    case twin::Standing::no_record:
      return "no-record";
    case twin::Standing::unreached:
      break;
  }
  return "unreached";
}

service::LimbKind kind_of(twin::Kind kind) { return static_cast<service::LimbKind>(static_cast<int>(kind)); }

class Comparison {
 public:
  void expect(std::string_view what, const std::string& ours, const std::string& twins) {
    if (ours != twins) differences_ += fmt::format("    {}: library {}, twin {}\n", what, ours, twins);
  }

  void point(const service::Point& ours, const twin::PointAnswer& twins) {
    const std::string standing = standing_of(twins);
    expect("standing", standing_of(ours), standing);
    const bool reached = standing == "overdue" || standing == "due";
    if (reached) {
      expect("ruled by", ours.ruled_by ? std::string(service::to_text(ours.limbs[*ours.ruled_by].kind)) : "none",
             twins.ruled_by ? std::string(service::to_text(kind_of(*twins.ruled_by))) : "none");
      expect("due on", text_of(ours.due_on), text_of(twins.due_on));
    }
    std::set<std::string> our_unknown;
    std::set<std::string> twin_unknown;
    for (const auto kind : ours.unknown) our_unknown.insert(std::string(service::to_text(kind)));
    for (const auto kind : twins.unknown) twin_unknown.insert(std::string(service::to_text(kind_of(kind))));
    expect("unknown", fmt::format("{}", fmt::join(our_unknown, " ")), fmt::format("{}", fmt::join(twin_unknown, " ")));
    expect("by estimate", ours.by_estimate ? "yes" : "no", twins.by_estimate ? "yes" : "no");
    expect("read the meter", ours.past_grace_by_estimate ? "yes" : "no", twins.read_the_meter ? "yes" : "no");
    expect("put off", ours.put_off ? "yes" : "no", twins.put_off ? "yes" : "no");
    expect("fitted", ours.fitted ? "yes" : "no", twins.fitted ? "yes" : "no");
    if (ours.fitted && twins.fitted) {
      expect("fitted on", text_of(ours.fitted->on.first), twin::iso(twins.fitted->first));
      expect("fitted until", text_of(ours.fitted->on.last), twin::iso(twins.fitted->last));
      expect("fitted at", text_of(ours.fitted->at), amount_text(twins.fitted->at));
      expect("basis", std::string(service::to_text(ours.fitted->basis)), twin::word(twins.fitted->basis));
    }
    expect("number of limbs", std::to_string(ours.limbs.size()), std::to_string(twins.limbs.size()));
    for (std::size_t i = 0; i < std::min(ours.limbs.size(), twins.limbs.size()); ++i)
      limb(ours.limbs[i], twins.limbs[i]);
  }

  void limb(const service::LimbStanding& ours, const twin::LimbAnswer& twins) {
    const std::string name = fmt::format("limb {} ", service::to_text(kind_of(twins.limb.kind)));
    expect(name + "kind", std::string(service::to_text(ours.kind)),
           std::string(service::to_text(kind_of(twins.limb.kind))));
    static const std::map<service::LimbState, std::string> states{{service::LimbState::overdue, "overdue"},
                                                                  {service::LimbState::due, "due"},
                                                                  {service::LimbState::not_reached, "not reached"},
                                                                  {service::LimbState::unknown, "unknown"}};
    static const std::map<twin::Reach, std::string> reaches{{twin::Reach::overdue, "overdue"},
                                                            {twin::Reach::due, "due"},
                                                            {twin::Reach::unreached, "not reached"},
                                                            {twin::Reach::unknown, "unknown"}};
    expect(name + "state", states.at(ours.state), reaches.at(twins.reach));
    const bool reached = twins.reach == twin::Reach::due || twins.reach == twin::Reach::overdue;
    const bool dated = kind_of(twins.limb.kind) == service::LimbKind::calendar ||
                       kind_of(twins.limb.kind) == service::LimbKind::season;
    if (dated || reached) expect(name + "due on", text_of(ours.due_on), text_of(twins.due_on));
    switch (ours.kind) {
      case service::LimbKind::usage:
        expect(name + "due at", text_of(ours.due_at), amount_text(twins.due_at));
        expect(name + "left", text_of(ours.left), amount_text(twins.left));
        expect(name + "used", text_of(ours.used), amount_text(twins.used));
        if (twins.grace) expect(name + "grace", service::to_text(ours.grace), amount_text(twins.grace));
        break;
      case service::LimbKind::calendar:
      case service::LimbKind::season:
        expect(name + "left days", ours.left_days ? std::to_string(*ours.left_days) : "none",
               twins.left_days ? std::to_string(*twins.left_days) : "none");
        break;
      case service::LimbKind::changes:
        expect(name + "count", ours.count ? std::to_string(*ours.count) : "none",
               twins.changes_used ? std::to_string(*twins.changes_used) : "none");
        break;
      default:
        break;
    }
  }

  std::string take() { return std::exchange(differences_, {}); }

 private:
  std::string differences_;
};

// Neighbouring worlds of a family share their fleet files; reading them anew each time would be most of the work.
std::shared_ptr<const service::Fleet> fleet_of(const twin::World& world) {
  service::FleetFiles files;
  const auto texts = twin::fleet_files(world);
  files.texts["fleet.yaml"] = texts.fleet;
  std::string key = texts.fleet;
  for (const auto& [name, text] : texts.schedules) {
    files.texts[name] = text;
    key.append(name).append(1, '\n').append(text);
  }
  static std::map<std::string, std::shared_ptr<const service::Fleet>> read;
  const auto found = read.find(key);
  if (found != read.end()) return found->second;
  if (read.size() > 5'000) read.clear();
  return read[key] = std::make_shared<const service::Fleet>(service::read_fleet(files));
}

std::optional<service::Amount> amount_of(const std::optional<twin::Amount>& amount) {
  if (!amount) return std::nullopt;
  return service::Amount{*amount};
}

service::FactKind kind_of(twin::FactKind kind) {
  switch (kind) {
    case twin::FactKind::reading:
      return service::FactKind::reading;
    case twin::FactKind::service:
      return service::FactKind::service;
    case twin::FactKind::sign:
      return service::FactKind::sign;
    case twin::FactKind::looked_at:
      return service::FactKind::looked_at;
    case twin::FactKind::measurement:
      return service::FactKind::measurement;
    case twin::FactKind::meter_change:
      return service::FactKind::meter_change;
    case twin::FactKind::put_off:
      return service::FactKind::put_off;
    case twin::FactKind::laid_up:
      return service::FactKind::laid_up;
    case twin::FactKind::out_of_use:
      return service::FactKind::out_of_use;
    case twin::FactKind::back:
      return service::FactKind::back;
    case twin::FactKind::strike:
      break;
  }
  return service::FactKind::strike;
}

service::FactId id_of(int entry) { return {service::make_command_id(1'000'000 + entry, {}), 1}; }

service::Fact fact_of(const twin::Fact& fact) {
  service::Fact ours;
  ours.kind = kind_of(fact.kind);
  ours.machine = fact.machine;
  ours.on = {day_of(fact.on.first), day_of(fact.on.last)};
  ours.meter = fact.meter;
  ours.at = amount_of(fact.at);
  ours.task = fact.task;
  ours.position = fact.position;
  ours.name = fact.name;
  if (fact.value) ours.value = service::Measure{*fact.value * 10'000};
  ours.unit = fact.unit;
  ours.last = amount_of(fact.last);
  ours.first = amount_of(fact.first);
  if (fact.until) ours.until = day_of(*fact.until);
  if (fact.kind == twin::FactKind::service && fact.found_failed) ours.found = service::Found::failed;
  if (fact.kind == twin::FactKind::service && fact.found_worn) ours.found = service::Found::worn;
  if (fact.kind == twin::FactKind::looked_at)
    ours.found = fact.found_good ? service::Found::good : service::Found::worn;
  ours.by = fact.by;
  ours.note = fact.note;
  ours.history = fact.history;
  if (fact.strikes) ours.strikes = id_of(*fact.strikes);
  ours.id = id_of(fact.entry);
  ours.entered = 1'000'000 + fact.entry;
  return ours;
}

std::vector<service::Fact> facts_of(const twin::World& world, const service::Fleet& fleet, Way way) {
  std::vector<service::Fact> facts;
  if (way == Way::direct) {
    for (const twin::Fact& fact : world.facts) facts.push_back(fact_of(fact));
    return facts;
  }
  const bool plain = way == Way::judged;
  const auto read = service::read_facts(twin::facts_csv(world, plain ? twin::Rows::plain : twin::Rows::exported,
                                                        plain ? twin::RollOvers::left_out : twin::RollOvers::written),
                                        "facts.csv");
  if (!read.diagnostics.empty()) throw service::Failure(service::FailureKind::bad_data, read.diagnostics);
  if (way == Way::exported) {
    for (const service::FactRow& row : read.rows) facts.push_back(row.fact);
    return facts;
  }
  std::vector<service::Proposal> proposals;
  for (const service::FactRow& row : read.rows) proposals.push_back({row.fact, row.has_id, row.place});
  const service::Stamp stamp{service::make_command_id(1'000, {}), 1'000, "twin", "import"};
  auto judgement = service::judge(fleet, {}, proposals, stamp, service::day_of(2190, 1, 1));
  for (const auto& refused : judgement.refused) {
    throw service::Failure(service::FailureKind::bad_data, refused);
  }
  return judgement.accepted;
}

std::string as_files(const twin::World& world, Way way) {
  const auto files = twin::fleet_files(world);
  std::string text = fmt::format("--- as of {}\n--- fleet.yaml\n{}", twin::iso(world.as_of), files.fleet);
  for (const auto& [name, schedule] : files.schedules) text += fmt::format("--- {}\n{}", name, schedule);
  const bool plain = way == Way::judged;
  text += "--- facts.csv\n" + twin::facts_csv(world, plain ? twin::Rows::plain : twin::Rows::exported);
  return text;
}

}  // namespace

Built build(const twin::World& world) {
  const auto fleet = fleet_of(world);
  return {fleet, facts_of(world, *fleet, Way::direct), day_of(world.as_of)};
}

std::string disagreement(const twin::World& world, Way way, Compared* compared) {
  try {
    const auto fleet = fleet_of(world);
    const service::Snapshot snapshot(fleet, service::whole_book(facts_of(world, *fleet, way)), day_of(world.as_of),
                                     true);
    // How today's usage is reckoned is not the twin's business, so the cheapest expectation will do; what it means is.
    const auto expected = service::straight_line();
    const auto list = service::due_list(snapshot, {day_of(world.as_of) + std::chrono::days{30}, {}}, expected);
    std::vector<twin::Estimate> today;
    for (const service::MeterAhead& meter : service::meters_ahead(snapshot, {}, expected)) {
      if (meter.now) today.push_back({meter.machine->key, meter.meter->name, meter.now->p50.hundredths});
    }

    std::map<std::tuple<std::string, std::string, std::string>, const service::Point*> ours;
    for (const service::Point& point : list.points) ours[{point.machine->key, point.name, point.position}] = &point;
    std::string text;
    Comparison comparison;
    const auto answer = twin::evaluate(world, today);
    for (const twin::PointAnswer& point : answer.points) {
      const auto found = ours.find({point.machine, point.task, point.position});
      if (found == ours.end()) {
        if (point.exists)
          text += fmt::format("  {} {} {}: not in the library\n", point.machine, point.task, point.position);
        continue;
      }
      if (compared != nullptr && point.read_the_meter) {
        ++(point.standing == twin::Standing::due ? compared->reached_and_past : compared->past_by_estimate);
      }
      if (!point.exists) {
        text += fmt::format("  {} {} {}: only in the library\n", point.machine, point.task, point.position);
      } else {
        comparison.point(*found->second, point);
        if (const auto lines = comparison.take(); !lines.empty()) {
          text += fmt::format("  {} {} {}\n{}", point.machine, point.task, point.position, lines);
        }
      }
      ours.erase(found);
    }
    for (const auto& [key, point] : ours) {
      text += fmt::format("  {} {} {}: not in the twin\n", std::get<0>(key), std::get<1>(key), std::get<2>(key));
    }
    std::string our_seen;
    std::string twin_seen;
    for (const service::SeenSign& seen : list.seen) {
      our_seen += fmt::format("{} {} {} {} {}; ", seen.machine->key, seen.sign, service::to_text(seen.on.first),
                              seen.note, seen.found ? "looked at" : "open");
    }
    for (const twin::SeenAnswer& seen : answer.seen) {
      twin_seen += fmt::format("{} {} {} {} {}; ", seen.machine, seen.sign, twin::iso(seen.on), seen.note,
                               seen.looked ? "looked at" : "open");
    }
    comparison.expect("seen", our_seen, twin_seen);
    text += comparison.take();
    for (const twin::MachineAnswer& machine : answer.machines) {
      if (!machine.has_points) continue;
      const auto state = service::use_state(snapshot, *fleet->machine(machine.machine));
      comparison.expect("laid up", state.laid_up ? "yes" : "no", machine.laid_up ? "yes" : "no");
      comparison.expect("out of use", state.kind == service::UseKind::out_of_use ? "yes" : "no",
                        machine.out_of_use ? "yes" : "no");
      if (const auto lines = comparison.take(); !lines.empty()) text += fmt::format("  {}\n{}", machine.machine, lines);
    }
    return text.empty() ? text : text + as_files(world, way);
  } catch (const service::Failure& failure) {
    std::string text = "refused:\n";
    for (const auto& diagnostic : failure.diagnostics()) {
      text +=
          fmt::format("  {}: {} ({}:{})\n", diagnostic.code, diagnostic.message,
                      diagnostic.place ? diagnostic.place->file : "", diagnostic.place ? diagnostic.place->line : 0);
    }
    return text + as_files(world, way);
  }
}

}  // namespace test
