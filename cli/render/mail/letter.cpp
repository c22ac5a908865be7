#include "render/mail/letter.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "render/overdue/words.h"
#include "render/shared/cautions.h"
#include "render/shared/cures.h"
#include "render/shared/point_rows.h"
#include "render/shared/resources_words.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"
#include "service/minding.h"

namespace cli {
namespace {

using service::OverdueHeading;
using service::Point;

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  return service::counted(static_cast<std::int64_t>(count), one, many);
}

std::string all_counts(const std::vector<service::HeadingCount>& counts) {
  std::vector<std::string> words;
  for (const service::HeadingCount& count : counts) words.push_back(counted_under(count.heading, count.lines));
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string in_capitals(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 32);
  return text;
}

// Where the machine stands, where there is more than one place.
std::string at_site(const service::Machine& machine, const service::Fleet& fleet) {
  return fleet.sites.size() < 2 || machine.site.empty() ? "" : fmt::format(" ({})", service::cleaned(machine.site));
}

std::string mind_of(const std::vector<const Point*>& points) { return mind_words(cautions_of(points)); }

constexpr std::string_view do_not_run = "do not run: ";

// What each line of a list has to say of its machine: whether anybody may run it, and why not.
class Warnings {
 public:
  explicit Warnings(const service::DueList& list) : list_(list), bans_(run_bans(list)) {}

  // Before the name of a machine that nobody may run, wherever it stands.
  std::string before(const service::Machine* machine) const {
    return machine == nullptr || ban_of(bans_, *machine) == nullptr ? "" : std::string(do_not_run);
  }
  // In a row of it; `point`: as `state_in_row`.
  std::string in_row(const service::Machine& machine, const Point* point) const {
    return state_in_row(list_.state_of(machine), ban_of(bans_, machine), point);
  }

 private:
  const service::DueList& list_;
  std::vector<service::RunBan> bans_;
};

LetterItem item_of(const Point& point, const service::DueList& list, const Warnings& warnings) {
  LetterItem item;
  item.mark = mark_of(point.standing);
  item.head = fmt::format("{}{}: {}{}", warnings.before(point.machine), service::cleaned(point.machine->key),
                          service::cleaned(task_of(point)), at_site(*point.machine, *list.fleet));
  std::vector<std::string> parts{when(point, list.as_of)};
  for (auto& words : limb_words(point)) parts.push_back(std::move(words));
  parts.push_back(warnings.in_row(*point.machine, &point));
  for (auto& words : remarks_of(point)) parts.push_back(std::move(words));
  parts.push_back(people_words(point));
  std::erase(parts, std::string{});
  if (!parts.empty()) item.below.push_back(fmt::format("{}", fmt::join(parts, "; ")));
  if (auto mind = mind_words(point.task->all_cautions); !mind.empty()) item.below.push_back(std::move(mind));
  return item;
}

LetterItem item_of(const service::NoRecord& line, const service::DueList& list, const Warnings& warnings,
                   const std::string& command) {
  LetterItem item;
  item.mark = mark_of(service::Standing::no_record);
  item.head = fmt::format("{}{}: no record{}", warnings.before(line.machine), service::cleaned(line.machine->key),
                          at_site(*line.machine, *list.fleet));
  item.below.push_back(warnings.in_row(*line.machine, nullptr));
  item.below.push_back(no_record_words(line, command));
  if (auto mind = mind_of(line.points); !mind.empty()) item.below.push_back(std::move(mind));
  std::erase(item.below, std::string{});
  return item;
}

LetterItem said_item(const std::string& warning, const std::pair<std::string, std::string>& said) {
  return {"", warning + service::cleaned(said.first), {service::cleaned(said.second)}};
}

// `of`: of which interval, where it is not the only one that is told.
std::string was_over(const service::Further& further, const std::string& of) {
  const service::LimbStanding* const limb = further.limb;
  if (limb == nullptr) return further.was ? service::counted(further.was->far, "day", "days") : "no days";
  if (!further.was) return fmt::format("not over by {}", words_of(limb->kind));
  const service::SaidOver& was = *further.was;
  if (was.by_estimate)
    return fmt::format("about {} over{} by estimate", about(service::Amount{was.far}, service::cleaned(limb->unit)),
                       of);
  if (limb->kind == service::LimbKind::usage) return with_unit(service::Amount{was.far}, limb->unit) + " over" + of;
  if (limb->kind == service::LimbKind::changes) return service::counted(was.far, "change", "changes") + " over" + of;
  return service::counted(was.far, "day", "days") + " over" + of;
}

// What stood idle when it was last told, and may work now.
std::string back_words(const service::BackInUse& back) {
  const std::string since = back.since ? " since " + to_text(*back.since) : "";
  return fmt::format("the machine was {} when last said, and is back{}",
                     back.was == OverdueHeading::out_of_use ? "out of use" : "laid up", since);
}

// What came to it since: `since last said: again 2026-06-18 (flames now)`.
std::string since_words(const service::ToldBefore& told) {
  std::vector<std::string> parts;
  if (told.seen_again != nullptr) parts.push_back(again_words(*told.seen_again));
  if (told.looked_since && told.entry.seen->looked_on && told.entry.seen->found) {
    parts.push_back(
        fmt::format("looked at {}, found {}", to_text(*told.entry.seen->looked_on), to_text(*told.entry.seen->found)));
  }
  if (!parts.empty()) return fmt::format("since last said: {}", fmt::join(parts, "; "));
  for (const service::UseReason& reason : told.reasons_since) {
    parts.push_back(fmt::format("{}: {}", to_text(reason.on), service::cleaned(reason.note)));
  }
  if (parts.empty()) return "";
  return fmt::format("out of use already when last said; said since: {}", fmt::join(parts, "; "));
}

// How it stood when it was last told, where it was: what is new has none.
void add_told(LetterItem& item, const service::ToldBefore* told) {
  if (told == nullptr) return;
  std::vector<std::string> parts;
  for (const service::Further& further : told->further) {
    const bool several = told->further.size() > 1 && further.limb != nullptr && told->entry.point != nullptr;
    parts.push_back(was_over(further, several ? ' ' + interval_of(*further.limb, *told->entry.point) : ""));
  }
  // That it stood under `Laid up` says no more than that its machine did.
  const bool moved = told->was_under && !(told->back && told->back->was == *told->was_under);
  if (moved) parts.push_back(fmt::format("under `{}`", title_of(*told->was_under)));
  if (!parts.empty()) {
    item.below.insert(item.below.begin(),
                      fmt::format("{}: {} when last said", moved ? "moved" : "worse", fmt::join(parts, ", ")));
  }
  if (const std::string since = since_words(*told); !since.empty()) item.below.insert(item.below.begin(), since);
  if (told->back) item.below.insert(item.below.begin(), back_words(*told->back));
}

LetterPart part_of(const service::OverdueBlock& block, const service::OverdueNews& news, const service::DueList& list,
                   const std::string& command) {
  LetterPart part{std::string(title_of(block.heading)), block.heading, {}};
  const service::BlockParts parts = parts_of(block, list);
  Look look;
  look.command = command;
  const Warnings warnings(list);
  for (const service::MachineUse* use : parts.machines) {
    part.items.push_back(said_item(warnings.before(use->machine), {use->machine->key, words_of(use->state)}));
    add_told(part.items.back(), news.told(*use));
  }
  for (const service::SeenSign* seen : parts.seen) {
    LetterItem item = said_item(warnings.before(seen->machine), line_of(*seen));
    item.below.push_back(mind_words(cautions_of(*list.fleet, *seen)));
    add_told(item, news.told(*seen));
    part.items.push_back(std::move(item));
  }
  for (const service::GapLine& line : gap_lines(parts.gaps)) {
    part.items.push_back(said_item(warnings.before(list.fleet->machine(line.gap->machine)), line_of(line, look)));
    add_told(part.items.back(), news.told(*line.gap));
  }
  for (const Point* point : parts.points) {
    part.items.push_back(item_of(*point, list, warnings));
    add_told(part.items.back(), news.told(*point));
  }
  for (const service::NoRecord& line : parts.no_record) {
    part.items.push_back(item_of(line, list, warnings, command));
    const service::ToldBefore* const told = line.points.empty() ? nullptr : news.told(*line.points.front());
    if (told != nullptr && told->back) {
      auto& below = part.items.back().below;
      below.insert(below.begin(), back_words(*told->back));
    }
  }
  return part;
}

// Short, so that all of it stands on a telephone's first screen.
constexpr std::size_t most_first = 8;

// Of what forbids nothing: `brakes overdue`, `brakes, no record`, `steering stiff`.
std::string first_words_of(const service::OverdueEntry& entry) {
  if (entry.seen != nullptr) return service::cleaned(entry.seen->sign);
  const std::string task = service::cleaned(task_of(*entry.point));
  if (entry.heading == OverdueHeading::overdue) return task + " overdue";
  if (entry.heading == OverdueHeading::read_the_meter) return task + " overdue by estimate";
  return task + (entry.point->standing == service::Standing::no_record ? ", no record" : ", not known");
}

bool is_back(const service::OverdueEntry& entry, const service::OverdueNews& news) {
  const service::ToldBefore* const told = entry.point != nullptr  ? news.told(*entry.point)
                                          : entry.seen != nullptr ? news.told(*entry.seen)
                                                                  : nullptr;
  return told != nullptr && told->back;
}

std::string first_line_of(const service::UrgentLine& line, const service::OverdueNews& news) {
  // Why nobody may run it, told before or not; and apart from that, what else there is, or it looks like a reason.
  std::vector<std::string> parts;
  if (line.ban != nullptr) parts = short_causes(*line.ban);
  for (std::size_t i = line.causes; i < line.entries.size(); ++i) {
    const bool first = line.ban != nullptr && i == line.causes;
    parts.push_back((first ? "also: " : "") + first_words_of(line.entries[i]));
  }
  const bool back = std::any_of(line.entries.begin(), line.entries.end(),
                                [&](const service::OverdueEntry& entry) { return is_back(entry, news); });
  // A telephone shows the beginning of a line.
  const std::string who = service::cleaned(line.machine->key);
  const std::string name = line.ban != nullptr ? fmt::format("{}{}{}", do_not_run, who, back ? ", back in use" : "")
                           : back              ? "back in use: " + who
                                               : who;
  return fmt::format("{}: {}", name, fmt::join(parts, "; "));
}

std::vector<std::string> first_lines(const service::OverdueNews& news) {
  const service::UrgentHead head = urgent_head(news, most_first);
  std::vector<std::string> lines;
  for (const service::UrgentLine* line : head.lines) lines.push_back(first_line_of(*line, news));
  if (head.machines_left_off > 0) {
    lines.push_back(fmt::format("and {} more, below: {}", counted(head.machines_left_off, "machine", "machines"),
                                all_counts(head.left_off)));
  }
  return lines;
}

// What stands on the list and not in the message. It ends with how much of that is overdue.
std::string still_words(const service::OverdueNews& news) {
  service::OverdueCounts counts = news.said_before;
  std::erase_if(counts.others, [](const auto& count) { return count.heading == OverdueHeading::overdue; });
  std::vector<std::string> parts = words_of(counts);
  parts.push_back(fmt::format("{} still overdue", news.said_before.under(OverdueHeading::overdue)));
  return fmt::format("Said before, and not again here: {}", fmt::join(parts, ", "));
}

// The same in short: what must not be forgotten for being told before.
std::string not_told_again(const service::OverdueNews& news) {
  const service::OverdueCounts& counts = news.said_before;
  return fmt::format("Said before: {} still overdue, {}.", counts.under(OverdueHeading::overdue),
                     not_to_run_words(counts.not_to_run));
}

std::string ago(service::Day day, service::Day as_of) {
  const int days = service::days_between(day, as_of);
  if (days <= 0) return to_text(day);
  return fmt::format("{}, {} ago", to_text(day), service::counted(days, "day", "days"));
}

std::string weekday_of_word(const service::Fleet& fleet) {
  constexpr std::array names{"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
  return names.at(static_cast<std::size_t>(fleet.mail.weekly_word.value_or(service::Weekday::monday)));
}

std::string every_week(const service::Fleet& fleet) {
  return fmt::format("This word comes every {}. When it does not come, find out why.", weekday_of_word(fleet));
}

// On which days it did not come.
std::string missed_words(const service::Fleet& fleet, const std::vector<service::Day>& missed) {
  const std::string weekday = weekday_of_word(fleet);
  if (missed.size() == 1) {
    return fmt::format("The word of {}, {}, was not handed over on its day.", weekday, to_text(missed.front()));
  }
  return fmt::format("The words of {} {}s, {} to {}, were not handed over on their days.", missed.size(), weekday,
                     to_text(missed.front()), to_text(missed.back()));
}

std::vector<std::string> word_lines(const service::DueList& list, const service::WeeklyWord& word,
                                    const std::string& command) {
  std::vector<std::string> lines;
  if (!word.missed.empty()) lines.push_back(missed_words(*list.fleet, word.missed));
  if (word.next != nullptr) {
    lines.push_back(fmt::format("Next due: {}{}, {}, {}.", Warnings(list).before(word.next->machine),
                                service::cleaned(word.next->machine->key), service::cleaned(task_of(*word.next)),
                                when(*word.next, list.as_of)));
  } else {
    lines.emplace_back("Next due: nothing can be expected.");
  }
  if (word.newest) {
    std::string readings = fmt::format("Newest reading: {}.", ago(*word.newest, list.as_of));
    if (word.longest != nullptr && word.longest_since) {
      readings += fmt::format(" Longest unread: {}, {}.", service::cleaned(word.longest->machine->key),
                              ago(*word.longest_since, list.as_of));
    }
    lines.push_back(std::move(readings));
  } else {
    lines.emplace_back(word.by_meter ? "No meter was ever read." : "Nothing comes due by a meter.");
  }
  lines.push_back(word.backup ? fmt::format("Last backup of the record: {}.", ago(*word.backup, list.as_of))
                              : fmt::format("No backup of the record is known; to make one: {} backup FILE", command));
  return lines;
}

// `1 machine has no site and is in no message by site: tractor-big.` Empty where there is none.
std::string without_site_words(const service::DueList& list) {
  constexpr std::size_t most_named = 8;
  const auto without = service::machines_without_site(*list.fleet, list.as_of);
  if (without.empty()) return "";
  std::vector<std::string> names;
  for (const service::Machine* machine : without) {
    if (names.size() < most_named || without.size() == most_named + 1) names.push_back(service::cleaned(machine->key));
  }
  std::string words = fmt::format("{} no site and {} in no message by site: {}",
                                  counted(without.size(), "machine has", "machines have"),
                                  without.size() == 1 ? "is" : "are", fmt::join(names, ", "));
  if (names.size() < without.size()) words += fmt::format(" and {} more", without.size() - names.size());
  return words + '.';
}

void add_each(std::vector<std::string>& to, const std::vector<std::string>& cautions) {
  for (const std::string& caution : cautions) {
    if (std::find(to.begin(), to.end(), caution) == to.end()) to.push_back(caution);
  }
}

// What is due, by estimate too, beside what is overdue: told once a week.
void add_due(Letter& letter, const service::DueList& list, const service::WeeklyWord& word) {
  if (word.due.empty()) return;
  letter.sends_people = true;
  LetterPart part{"Due", OverdueHeading::read_the_meter, {}};
  const Warnings warnings(list);
  for (const Point* point : word.due) part.items.push_back(item_of(*point, list, warnings));
  letter.parts.push_back(std::move(part));
}

void add_cautions(Letter& letter, const service::OverdueNews& news, const service::Fleet& fleet,
                  const WordOfTheWeek& word) {
  letter.sends_people = letter.sends_people || !news.blocks.empty();
  std::vector<const Point*> points;
  if (word) points = word->due;
  for (const service::OverdueBlock& block : news.blocks) {
    for (const service::OverdueEntry& entry : block.entries) {
      if (entry.point != nullptr) points.push_back(entry.point);
    }
  }
  letter.cautions = cautions_of(points);
  for (const service::OverdueBlock& block : news.blocks) {
    for (const service::OverdueEntry& entry : block.entries) {
      if (entry.seen != nullptr) add_each(letter.cautions, cautions_of(fleet, *entry.seen));
    }
  }
}

// Said in the word of the week, where messages by site may be all that somebody gets; one of a site has said it first.
void add_without_site(Letter& letter, const service::DueList& list) {
  if (!list.scope.site.empty()) return;
  if (std::string words = without_site_words(list); !words.empty()) letter.word.push_back(std::move(words));
}

// What kept the list from being made. Of the record and of fleet files no word is taken into the subject.
std::string failure_words(const service::Failure& failure, bool fleet_was_read) {
  const auto errors = failure.diagnostics().size();
  const auto kind = failure.kind();
  const bool of_a_file = kind == service::FailureKind::not_found || kind == service::FailureKind::bad_data ||
                         kind == service::FailureKind::io;
  if (of_a_file && !fleet_was_read) return "no list: a fleet file cannot be read";
  switch (kind) {
    case service::FailureKind::bad_fleet:
      return fmt::format("no list: {} in fleet files", counted(errors, "mistake", "mistakes"));
    case service::FailureKind::busy:
      return "no list: the record is in use";
    case service::FailureKind::not_found:
      return "no list: there is no record";
    case service::FailureKind::bad_data:
      return "no list: the record cannot be trusted";
    case service::FailureKind::io:
      return "no list: the record cannot be read";
    case service::FailureKind::usage:
    case service::FailureKind::internal:
      break;
  }
  return "no list: something went wrong";
}

// Its silence about the others means nothing. Of machines without a site no such message tells.
void add_other_sites(Letter& letter, const service::DueList& list) {
  if (list.scope.site.empty()) return;
  letter.opening.push_back(
      fmt::format("This is of site {} alone; nothing is said of the others.", service::cleaned(list.scope.site)));
  if (std::string words = without_site_words(list); !words.empty()) letter.opening.push_back(std::move(words));
}

std::string named(std::string subject, const std::string& fleet) {
  subject = in_capitals(std::move(subject));
  return fleet.empty() ? subject : fmt::format("{}: {}", subject, service::cleaned(fleet));
}

}  // namespace

Letter letter_of_news(const service::DueList& list, const service::OverdueNews& news, const WordOfTheWeek& word,
                      const std::string& command) {
  Letter letter;
  const std::string whose = whose_list(*list.fleet, list.scope);
  letter.subject = named(
      fmt::format("{}{}", news.everything ? "" : "new or worse: ", fmt::join(words_of(news.counts), ", ")), whose);
  letter.title = fmt::format("{}, {}", whose, to_text(list.as_of));
  add_other_sites(letter, list);
  if (!news.everything) letter.counts = not_told_again(news);
  letter.first = first_lines(news);
  if (!news.everything) letter.opening.emplace_back("New since the last message, or worse:");
  for (const service::OverdueBlock& block : news.blocks) letter.parts.push_back(part_of(block, news, list, command));
  if (word) {
    add_due(letter, list, *word);
    letter.word = word_lines(list, *word, command);
    add_without_site(letter, list);
    letter.word.push_back(every_week(*list.fleet));
  }
  Look look;
  look.columns = 0;
  if (std::string customers = customers_line(list, look); !customers.empty()) {
    customers.pop_back();  // its line end
    letter.closing.push_back(std::move(customers));
  }
  add_cautions(letter, news, *list.fleet, word);
  if (!news.everything) letter.last = still_words(news);
  return letter;
}

Letter letter_of_week(const service::DueList& list, const service::WeeklyWord& word, const std::string& command) {
  Letter letter;
  const std::string machines = service::counted(word.machines, "machine", "machines");
  const std::string whose = whose_list(*list.fleet, list.scope);
  letter.subject = named(
      word.due.empty() ? "all is well, " + machines : fmt::format("nothing overdue, {} due", word.due.size()), whose);
  letter.title = fmt::format("{}, {}", whose, to_text(list.as_of));
  letter.opening.push_back(fmt::format("Nothing is overdue, and all is known, of {}.", machines));
  add_other_sites(letter, list);
  add_due(letter, list, word);
  letter.cautions = cautions_of(word.due);
  letter.word = word_lines(list, word, command);
  add_without_site(letter, list);
  letter.closing.push_back(every_week(*list.fleet));
  return letter;
}

Letter letter_of_return(const service::DueList& list) {
  Letter letter;
  const std::string whose = whose_list(*list.fleet, list.scope);
  letter.subject = named("there is a list again, nothing overdue", whose);
  letter.title = fmt::format("{}, {}", whose, to_text(list.as_of));
  letter.opening.push_back(fmt::format("Nothing is overdue, and all is known, of {}.",
                                       service::counted(list.machines, "machine", "machines")));
  add_other_sites(letter, list);
  return letter;
}

Letter letter_of_failure(const service::Failure& failure, const FailedFleet& fleet, const std::string& command) {
  Letter letter;
  letter.subject = named(failure_words(failure, fleet.was_read), fleet.name);
  letter.title = "No overdue list";
  letter.opening.emplace_back(
      "The overdue list could not be made. This does not mean that all is well: nothing is known until it is mended.");
  LetterPart part{"What is wrong", OverdueHeading::find_out, {}};
  for (const service::Diagnostic& diagnostic : failure.diagnostics()) {
    LetterItem item;
    if (diagnostic.place) {
      const service::Place& place = *diagnostic.place;
      item.head = service::cleaned(place.file);
      if (place.line > 0) item.head += fmt::format(":{}:{}", place.line, place.column);
      item.below.push_back(service::cleaned(diagnostic.message));
    } else {
      item.head = service::cleaned(diagnostic.message);
    }
    if (const std::string hint = hint_of(diagnostic, command); !hint.empty()) {
      item.below.push_back("hint: " + service::cleaned(hint));
    }
    part.items.push_back(std::move(item));
  }
  letter.parts.push_back(std::move(part));
  letter.closing.push_back(fmt::format("To see it again: {} check", command));
  return letter;
}

void say_list_again(Letter& letter, service::Day last) {
  letter.opening.insert(
      letter.opening.begin(),
      fmt::format("There is a list again: a message of {} said that there was none. So all is told.", to_text(last)));
}

void say_not_known_before(Letter& letter, const std::string& file, const std::string& problem) {
  letter.opening.insert(
      letter.opening.begin(),
      fmt::format("What was mailed before is not known, for {} {}; so all is told again.", file, problem));
}

}  // namespace cli
