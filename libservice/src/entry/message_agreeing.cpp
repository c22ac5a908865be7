#include "entry/message_agreeing.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "entry/message_values.h"
#include "service/snapshot.h"

namespace service::entry {
namespace {

class ValuesThatAgree {
 public:
  explicit ValuesThatAgree(TextBesideBook& text) : text_(text) {}

  void insist() {
    auto all = shown_by_meter();
    for (auto& [of, shown] : all) {
      const auto& [machine, meter] = of;
      if (meter == nullptr || shown.values.size() < 2 || was_changed(machine, meter, shown)) continue;
      for (const NotCertain& one : not_certain(*meter, shown)) {
        Draft& draft = *shown.drafts[one.value];
        if (draft.line.fate != LineFate::taken) continue;
        draft.line.instead = draft.facts;
        refuse(draft, why_not_certain(machine, *meter, shown, one));
      }
    }
  }

 private:
  // What the lines say that one meter shows.
  struct Shown {
    std::vector<Draft*> drafts;
    std::vector<LineValue> values;
  };

  std::map<std::pair<std::string, const Meter*>, Shown> shown_by_meter() {
    std::map<std::pair<std::string, const Meter*>, Shown> all;
    for (Draft& draft : text_.drafts()) {
      const bool counts = draft.line.fate == LineFate::taken || draft.line.fate == LineFate::already_there;
      const Fact* const told = counts ? value_told(draft) : nullptr;
      if (told == nullptr) continue;
      const bool is_timed = !draft.own_day && draft.sent_on && draft.stamp && draft.stamp->second;
      Shown& shown = all[{told->machine, meter_of(*told)}];
      shown.drafts.push_back(&draft);
      shown.values.push_back({told->on.first, is_timed ? draft.stamp->second : std::nullopt, *told->at, told->sure});
    }
    return all;
  }

  // Null: it tells none of a day.
  static const Fact* value_told(const Draft& draft) {
    const auto told = std::find_if(draft.facts.begin(), draft.facts.end(),
                                   [](const Fact& fact) { return fact.at && fact.on.whole_day(); });
    return told == draft.facts.end() ? nullptr : &*told;
  }

  const Meter* meter_of(const Fact& fact) const {
    const Machine& machine = *text_.fleet().machine(fact.machine);
    return fact.meter.empty() ? machine.first_meter() : machine.meter(fact.meter);
  }

  // The book does not say that it is wrong.
  bool may_be_right(const Draft& draft) const {
    if (draft.line.fate != LineFate::taken) return true;
    const std::vector<Proposal> alone{{*value_told(draft), false, std::nullopt}};
    return judge(text_.fleet(), text_.known().facts, alone, text_.stamp_of(alone), text_.ask().today).refused.empty();
  }

  // On one of the days of these values another meter began to count.
  bool was_changed(const std::string& machine, const Meter* meter, const Shown& shown) const {
    const auto book = text_.book().find(machine);
    if (book == text_.book().end()) return false;
    const auto [first, last] = std::minmax_element(shown.values.begin(), shown.values.end(),
                                                   [](const auto& a, const auto& b) { return a.on < b.on; });
    return std::any_of(book->second.begin(), book->second.end(), [&](const Fact& fact) {
      return fact.kind == FactKind::meter_change && meter_of(fact) == meter && fact.on.last >= first->on &&
             fact.on.first <= last->on;
    });
  }

  // Those that cannot all be right, as far as the book does not tell which of them is wrong: the judge does then.
  std::vector<NotCertain> not_certain(const Meter& meter, Shown& shown) const {
    while (true) {
      std::vector<NotCertain> all = entry::not_certain(meter, shown.values);
      std::set<std::size_t> wrong;
      for (const NotCertain& one : all) {
        for (const std::size_t at : {one.value, one.other}) {
          if (!may_be_right(*shown.drafts[at])) wrong.insert(at);
        }
      }
      if (wrong.empty()) return all;
      for (auto at = wrong.rbegin(); at != wrong.rend(); ++at) {
        shown.drafts.erase(shown.drafts.begin() + static_cast<std::ptrdiff_t>(*at));
        shown.values.erase(shown.values.begin() + static_cast<std::ptrdiff_t>(*at));
      }
    }
  }

  static Diagnostic why_not_certain(const std::string& machine, const Meter& meter, const Shown& shown,
                                    const NotCertain& one) {
    const auto [first, second] = std::minmax(one.value, one.other);
    const auto value_of = [&](std::size_t at) {
      constexpr int minute = 60;
      const LineValue& value = shown.values[at];
      std::string text =
          fmt::format("{} {}", meter.unit == "h" ? to_text_tenths(value.at) : to_text(value.at), meter.unit);
      if (value.on != shown.values[one.value].on) text += " of " + to_text(value.on);
      if (!value.second) return text;
      return text + fmt::format(" at {:02}:{:02}", *value.second / minute / minute, *value.second / minute % minute);
    };
    const bool falls = apart(meter, shown.values[first], shown.values[second]) == Apart::falls;
    return {
        "values-apart",
        fmt::format("line {} says that meter `{}` of {} shows {}, line {} {}: {}; {}", shown.drafts[first]->line.number,
                    meter.name, machine, value_of(first), shown.drafts[second]->line.number, value_of(second),
                    falls ? "no meter runs backwards" : "more use than the time between them allows",
                    one.alone ? "what else is said of it speaks for the other"
                              : "one of the two is wrong, and nothing tells which"),
        "read the meter again and send what it shows; where a value was read long before it was sent, say its day "
        "behind it"};
  }

  TextBesideBook& text_;
};

}  // namespace

void insist_on_values_that_agree(TextBesideBook& text) { ValuesThatAgree(text).insist(); }

}  // namespace service::entry
