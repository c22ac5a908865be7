// The layout: the format; then of each meter, by name: its name, the unit, whether services are recorded, how late they
// were; its machines, by name: their names, and behind them what each has taught, all of one size. Every number is
// eight bytes, so that what was learnt comes back bit for bit.
#include "service/learnt_kind.h"

#include <algorithm>
#include <bit>
#include <map>
#include <optional>
#include <utility>

#include "base/eight_bytes.h"
#include "usage/constants.h"
#include "usage/learning.h"
#include "usage/learnt_use.h"

namespace service {
namespace {

using usage::Learnt;

// To be changed with anything that changes what is written, or what it means.
constexpr std::uint64_t layout = 1;

class KindWriter {
 public:
  std::string bytes;

  void number(std::uint64_t value) { add_eight_bytes(bytes, value); }
  void real(double value) { number(std::bit_cast<std::uint64_t>(value)); }
  template <class Reals>
  void reals(const Reals& values) {
    for (const double value : values) real(value);
  }
  void words(std::string_view text) {
    number(text.size());
    bytes += text;
  }
};

// Reads past the end as zeros, and then was not whole.
class KindReader {
 public:
  explicit KindReader(std::string_view bytes) : rest_(bytes) {}

  bool broken() const { return broken_; }
  bool at_end() const { return rest_.empty(); }
  std::uint64_t number() {
    if (rest_.size() >= eight_bytes) return take_eight_bytes(rest_);
    broken_ = true;
    return 0;
  }
  double real() { return std::bit_cast<double>(number()); }
  template <class Reals>
  void reals(Reals& values) {
    for (double& value : values) value = real();
  }
  int small() { return static_cast<int>(number()); }
  std::string_view take(std::uint64_t size) {
    if (size > rest_.size()) broken_ = true;
    const std::string_view taken = rest_.substr(0, broken_ ? 0 : static_cast<std::size_t>(size));
    rest_.remove_prefix(taken.size());
    return taken;
  }
  std::string_view words() { return take(number()); }
  // Of things of `size` bytes each.
  std::size_t count(std::size_t size = eight_bytes) {
    const std::uint64_t many = number();
    if (many > rest_.size() / size) broken_ = true;
    return broken_ ? 0 : static_cast<std::size_t>(many);
  }

 private:
  std::string_view rest_;
  bool broken_ = false;
};

constexpr auto most_components = static_cast<std::size_t>(usage::constants.kept_components);

void write(const Learnt& learnt, KindWriter& out) {
  out.reals(learnt.profile);
  out.reals(learnt.unseen);
  const auto& components = learnt.rate.components;
  out.number(components.size());
  for (std::size_t i = 0; i < most_components; ++i) {
    const usage::RateComponent each = i < components.size() ? components[i] : usage::RateComponent{};
    out.real(each.shape);
    out.real(each.rate);
    out.real(each.weight);
  }
  for (const double each : {learnt.rate.idle, learnt.rate.stops, learnt.rate.ran_days, learnt.spread.lump}) {
    out.real(each);
  }
  out.reals(learnt.spread.doubts);
  for (const double each : {learnt.stop_rate, learnt.dispersion, learnt.predicted_use, learnt.used, learnt.mean_days}) {
    out.real(each);
  }
  out.number(static_cast<std::uint64_t>(learnt.gaps));
  out.number(static_cast<std::uint64_t>(learnt.others));
  out.number((learnt.expected ? 1U : 0U) + (learnt.expected_seasons ? 2U : 0U));
}

Learnt read_learnt(KindReader& in) {
  Learnt learnt;
  in.reals(learnt.profile);
  in.reals(learnt.unseen);
  learnt.rate.components.resize(std::min(static_cast<std::size_t>(in.number()), most_components));
  for (std::size_t i = 0; i < most_components; ++i) {
    usage::RateComponent each;
    each.shape = in.real();
    each.rate = in.real();
    each.weight = in.real();
    if (i < learnt.rate.components.size()) learnt.rate.components[i] = each;
  }
  for (double* each : {&learnt.rate.idle, &learnt.rate.stops, &learnt.rate.ran_days, &learnt.spread.lump}) {
    *each = in.real();
  }
  in.reals(learnt.spread.doubts);
  for (double* each : {&learnt.stop_rate, &learnt.dispersion, &learnt.predicted_use, &learnt.used, &learnt.mean_days}) {
    *each = in.real();
  }
  learnt.gaps = in.small();
  learnt.others = in.small();
  const std::uint64_t flags = in.number();
  learnt.expected = (flags & 1U) != 0;
  learnt.expected_seasons = (flags & 2U) != 0;
  return learnt;
}

std::size_t size_of_learnt() {
  static const std::size_t size = [] {
    KindWriter out;
    write({}, out);
    return out.bytes.size();
  }();
  return size;
}

void write(const std::string& meter, const usage::LearntMeter& learnt, KindWriter& out) {
  out.words(meter);
  out.real(learnt.unit);
  out.number(learnt.late.recorded() ? 1 : 0);
  out.number(learnt.late.shares().size());
  out.reals(learnt.late.shares());
  out.number(learnt.machines.size());
  for (const auto& [machine, of_machine] : learnt.machines) out.words(machine);
  for (const auto& [machine, of_machine] : learnt.machines) write(of_machine, out);
}

}  // namespace

struct LearntKind::OfMeter {
  std::string_view meter;
  double unit = 1;
  std::shared_ptr<const usage::LateServices> late;
  std::vector<std::string_view> machines;
  std::string_view learnt;
};

LearntKind::LearntKind(std::string bytes) : bytes_(std::move(bytes)) {
  KindReader in(bytes_);
  if (in.number() != layout) return;
  std::vector<OfMeter> meters;
  for (std::size_t left = in.count(); left > 0 && !in.broken(); --left) {
    OfMeter meter;
    meter.meter = in.words();
    meter.unit = in.real();
    const bool recorded = in.number() != 0;
    usage::Lateness late(in.count());
    in.reals(late);
    meter.late = std::make_shared<const usage::LateServices>(std::move(late), recorded);
    meter.machines.resize(in.count());
    for (std::string_view& machine : meter.machines) machine = in.words();
    meter.learnt = in.take(meter.machines.size() * size_of_learnt());
    meters.push_back(std::move(meter));
  }
  if (in.broken() || !in.at_end()) return;
  meters_ = std::make_shared<const std::vector<OfMeter>>(std::move(meters));
}

std::shared_ptr<const LearntKind> LearntKind::from(
    const Fleet& fleet, const std::string& schedule,
    const std::function<std::shared_ptr<const MachineBook>(const Machine&)>& book_of) {
  std::vector<const Machine*> kin;
  std::map<std::string, usage::LearntMeter> meters;
  for (const Machine& machine : fleet.machines) {
    if (machine.schedule != schedule) continue;
    kin.push_back(&machine);
    for (const Meter& meter : machine.meters) meters.try_emplace(meter.name);
  }
  for (auto& [meter, learnt] : meters) learnt = usage::learn(fleet, kin, book_of, meter);
  KindWriter out;
  constexpr std::size_t name_and_services = 256;  // about so much a machine
  out.bytes.reserve(meters.size() * kin.size() * (size_of_learnt() + name_and_services));
  out.number(layout);
  out.number(meters.size());
  for (const auto& [meter, learnt] : meters) write(meter, learnt, out);
  return read(std::move(out.bytes));
}

std::shared_ptr<const LearntKind> LearntKind::read(std::string bytes) {
  std::shared_ptr<const LearntKind> kind(new LearntKind(std::move(bytes)));
  return kind->meters_ != nullptr ? kind : nullptr;
}

usage::LearntUse LearntKind::of(std::string_view machine, std::string_view meter) const {
  usage::LearntUse use;
  for (const OfMeter& each : *meters_) {
    if (each.meter != meter) continue;
    use.late = each.late;
    use.unit = each.unit;
    const auto at = std::lower_bound(each.machines.begin(), each.machines.end(), machine);
    if (at == each.machines.end() || *at != machine) break;
    const auto place = static_cast<std::size_t>(at - each.machines.begin());
    KindReader in(each.learnt.substr(place * size_of_learnt(), size_of_learnt()));
    use.learnt = std::make_shared<const Learnt>(read_learnt(in));
    break;
  }
  return use;
}

}  // namespace service
