// What each piece of a question costs by itself, on a fleet that lies in a folder with its record and the facts that it
// was made of.
// usage: bench_pieces FOLDER FACTS.csv YYYY-MM-DD [options of the benchmark library, as --benchmark_filter=odds]
//
// Time is of the processor. `items_per_second` counts what is named behind the slash: facts, machines, points, ...
#include <benchmark/benchmark.h>

#include <filesystem>
#include <fstream>
#include <functional>
#include <iostream>
#include <iterator>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "service/due_list.h"
#include "service/kept_books.h"
#include "service/learnt_kind.h"
#include "service/machine_book.h"
#include "service/record.h"

namespace {

namespace fs = std::filesystem;
using service::Day;
using service::Detail;
using service::Fact;
using service::Machine;

std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// The fleet and all that is known of it, read once.
class World {
 public:
  World(const fs::path& folder, const fs::path& facts, Day as_of)
      : files_(service::load_fleet_files(folder)),
        fleet_(std::make_shared<const service::Fleet>(service::read_fleet(files_))),
        record_(service::Record::open(folder / "record.db", service::Access::read)),
        facts_text_(text_of(facts)),
        as_of_(as_of),
        snapshot_(service::take_learnt_snapshot(fleet_, record_, as_of, true)) {
    for (const Machine& machine : fleet_->machines) books_.emplace(machine.key, service::book_of(snapshot_, machine));
  }

  void register_all() const {
    add("fleet from its files/machines", [this](benchmark::State& state) {
      service::FleetFiles files = files_;
      files.compiled.clear();
      for (auto _ : state) benchmark::DoNotOptimize(service::read_fleet(files));
      count(state, machines());
    });
    add("fleet as it was kept/machines", [this](benchmark::State& state) {
      if (!service::is_compiled(files_)) state.SkipWithError("the folder holds no .compiled-fleet of its files");
      for (auto _ : state) benchmark::DoNotOptimize(service::read_fleet(files_));
      count(state, machines());
    });
    add("facts from a file/facts", [this](benchmark::State& state) {
      std::size_t facts = 0;
      for (auto _ : state) facts = service::read_facts(facts_text_, "facts.csv").rows.size();
      count(state, facts);
    });
    add("facts from the record/facts", [this](benchmark::State& state) {
      std::size_t facts = 0;
      for (auto _ : state) facts = record_.facts().size();
      count(state, facts);
    });
    add("books from facts/machines", [this](benchmark::State& state) {
      each_machine(state, [&](const Machine& machine) {
        benchmark::DoNotOptimize(service::condensed(*fleet_, machine, snapshot_.facts_of(machine.key)));
      });
    });
    add("kinds learnt from books/kinds", [this](benchmark::State& state) {
      for (auto _ : state) {
        for (const service::Schedule& schedule : fleet_->schedules) {
          benchmark::DoNotOptimize(service::LearntKind::from(
              *fleet_, schedule.name, [this](const Machine& machine) { return books_.at(machine.key); }));
        }
      }
      count(state, fleet_->schedules.size());
    });
    const std::pair<const char*, Detail> details[] = {{"what is overdue and due/points", Detail::standings},
                                                      {"what is coming/points", Detail::coming},
                                                      {"every day and span/points", Detail::everything}};
    for (const auto& [name, detail] : details) {
      add(name, [this, detail = detail](benchmark::State& state) {
        const auto forecaster = service::learnt_from(snapshot_);
        std::size_t points = 0;
        for (auto _ : state) {
          points = service::due_list(snapshot_, {as_of_ + std::chrono::days{30}, {}, detail}, forecaster).points.size();
        }
        count(state, points);
      });
    }
    add("odds of a level by a day/odds", [this](benchmark::State& state) { odds(state); });
  }

 private:
  static void add(const char* name, const std::function<void(benchmark::State&)>& run) {
    benchmark::RegisterBenchmark(name, run)->Unit(benchmark::kMillisecond);
  }

  static void count(benchmark::State& state, std::size_t items) {
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(items));
  }

  std::size_t machines() const { return fleet_->machines.size(); }

  void each_machine(benchmark::State& state, const std::function<void(const Machine&)>& run) const {
    for (auto _ : state) {
      for (const Machine& machine : fleet_->machines) run(machine);
    }
    count(state, machines());
  }

  // Of each meter: that it goes on by a hundred within a month.
  void odds(benchmark::State& state) const {
    const auto forecaster = service::learnt_from(snapshot_);
    struct Asked {
      std::unique_ptr<const service::UsageAhead> ahead;
      service::Amount level;
    };
    std::vector<Asked> all;
    for (const Machine& machine : fleet_->machines) {
      for (const service::Meter& meter : machine.meters) {
        const service::MeterHistory& history = books_.at(machine.key)->history(meter);
        auto ahead = forecaster({*fleet_, machine, meter, history, {}, as_of_});
        const auto now = ahead->on(as_of_, service::Quantile::p50);
        if (now) all.push_back({std::move(ahead), *now + service::Amount::units(100)});
      }
    }
    for (auto _ : state) {
      for (const Asked& asked : all) {
        benchmark::DoNotOptimize(asked.ahead->odds(asked.level, {})->by(as_of_ + std::chrono::days{30}));
      }
    }
    count(state, all.size());
  }

  service::FleetFiles files_;
  std::shared_ptr<const service::Fleet> fleet_;
  service::Record record_;
  std::string facts_text_;
  Day as_of_;
  service::Snapshot snapshot_;
  std::map<std::string, std::shared_ptr<const service::MachineBook>> books_;
};

}  // namespace

int main(int count, char** words) {
  benchmark::Initialize(&count, words);
  const auto as_of = count == 4 ? service::parse_day(words[3]) : service::Parsed<Day>{{}, "is missing"};
  if (!as_of) {
    std::cerr << "usage: bench_pieces FOLDER FACTS.csv YYYY-MM-DD [--benchmark_...]\n";
    return 64;
  }
  try {
    const World world(words[1], words[2], *as_of.value);
    world.register_all();
    benchmark::RunSpecifiedBenchmarks();
  } catch (const service::Failure& failure) {
    std::cerr << failure.diagnostics().front().message << '\n';
    return static_cast<int>(failure.kind());
  }
  return 0;
}
