// The record of a fleet that was taken over.
#include <utility>

#include "service/kept_books.h"
#include "service/snapshot.h"
#include "service/taking_over.h"

namespace service {
namespace {

constexpr std::string_view origin = "new ";

}  // namespace

// By the judge alone and not by `enter`: a record that has no name yet is asked nothing, so there is no before and
// after to compare, and nothing that could fail once the readings are in.
void make_record(const TakenOver& taken, const std::filesystem::path& record, const Writer& writer) {
  if (taken.readings.empty()) return Record::create(record);
  Record::create(record, [&](Record& made) {
    const BookKeeper keeper(*taken.fleet);
    const auto judge_all = [&](const std::vector<Fact>& known) {
      std::vector<Proposal> proposals;
      for (const Fact& reading : taken.readings) proposals.push_back({reading, false, std::nullopt});
      const std::string file = std::filesystem::path(taken.file).filename().string();
      const Stamp stamp = stamp_of(writer, std::string(origin) + file, proposals);
      Judgement judged = judge(*taken.fleet, known, proposals, stamp, taken.today);
      if (!judged.refused.empty()) throw Failure(FailureKind::bad_data, std::move(judged.refused));
      return std::move(judged.accepted);
    };
    made.append({}, false, judge_all, &keeper);
  });
}

bool holds_only_taken_over(const std::filesystem::path& record) {
  try {
    for (const Fact& fact : Record::open(record, Access::read).facts()) {
      if (!fact.origin.starts_with(origin)) return false;
    }
    return true;
  } catch (const Failure&) {
    return false;
  }
}

}  // namespace service
