#include "entry/message_drafts_read.h"

#include <fmt/format.h>

#include <algorithm>

#include "entry/message_line.h"
#include "entry/message_stop.h"
#include "entry/message_tail.h"
#include "entry/message_text.h"
#include "entry/message_who.h"
#include "entry/message_words.h"

namespace service::entry {
namespace {

void refuse_as(Draft& draft, const Failure& failure) {
  draft.facts.clear();
  draft.line.on.reset();
  draft.line.wrong = failure.diagnostics();
  draft.line.instead.clear();
  draft.line.fate = LineFate::refused;
}

}  // namespace

std::vector<Draft> DraftReader::read() const {
  std::vector<Draft> drafts;
  std::vector<Stamped> stamps;
  std::vector<std::size_t> not_understood;  // lines that begin like a stamp
  for (PastedLine& pasted : pasted_lines(ask_.text)) {
    Draft draft;
    draft.line.number = pasted.number;
    draft.line.text = std::move(pasted.text);
    if (!pasted.problem.empty()) {
      draft.line.wrong = {{"unreadable", "the line " + pasted.problem, "type it anew"}};
      if (begins_like_a_stamp(draft.line.text)) not_understood.push_back(drafts.size());
    } else {
      auto head =
          headed(pasted.plain, ask_.today, [&](std::string_view text) { return begins_a_message(fleet_, text); });
      // What tells of a machine is no divider, though a day stands in the line; nor is a typing slip in its name.
      if (head.looks_like_a_header && !head.not_understood) {
        const auto before = before_machine_told(fleet_, pasted.plain);
        const bool is_none = may_begin_a_message(fleet_, pasted.plain) || (before && !has_part_of_a_stamp(*before));
        head.not_understood = !is_none;
      }
      draft.line.sender = std::move(head.sender);
      draft.stamp = std::move(head.sent);
      if (draft.stamp && draft.stamp->names_day) stamps.push_back(*draft.stamp);
      draft.said = std::move(head.rest);
      if (head.not_understood) {
        not_understood.push_back(drafts.size());
        draft.said.clear();
        draft.line.wrong = {{"bad-stamp", "it looks like the stamp of messages, and its day is not understood",
                             "if this is no stamp, take it out; else write its day as 14.06.2026 or 2026-06-14, and "
                             "behind it nothing, or a time and who sent it: 14.06.2026 19:40 M.T.: ...; the lines "
                             "below it have no day without it"}};
      } else if (draft.said.empty()) {
        draft.line.fate = LineFate::heading;
      }
    }
    drafts.push_back(std::move(draft));
  }
  share_stamps(drafts, day_comes_first(stamps), not_understood);
  put_in_order(drafts);
  return drafts;
}

bool DraftReader::is_plain_name(std::string_view sender) const {
  return somebody_(sender) || message::is_plain_name(sender);
}

void DraftReader::understand(Draft& draft, const std::function<std::vector<std::string>(const Machine&)>& seen) const {
  if (draft.said.empty()) return;
  Told told{fleet_, ask_.today, ask_.on ? ask_.on : ask_.today, "", true, ask_.by, seen, somebody_};
  if (draft.sent_on) {
    told.today = *draft.sent_on;
    told.on = draft.sent_on;
  } else if (!draft.no_day.empty()) {
    told.counts_from_today = false;
    told.no_day = draft.no_day;
    told.on = std::nullopt;
  } else if (ask_.on) {
    told.counts_from_today = false;
  }
  try {
    Said said = said_in(draft.said, told);
    draft.facts = std::move(said.facts);
    const bool by_date = said.names_day && !said.day_counts;
    draft.names_day = by_date || (draft.sent_on ? !draft.sent_counts : ask_.on.has_value());
    draft.own_day = said.names_day;
    draft.own_words = said.own_words;
    draft.line.asks = std::move(said.asks);
    draft.day_counts = said.day_counts;
    draft.line.on = draft.facts.front().on;
    draft.line.wrong.clear();
    draft.line.fate = LineFate::taken;
    draft.line.instead.clear();
  } catch (const message::AskedBack& asked) {
    refuse_as(draft, asked);
    draft.line.instead = asked.facts();
    draft.line.on = asked.facts().front().on;
  } catch (const Failure& failure) {
    refuse_as(draft, failure);
    if (draft.sent_on && may_be_of_day_sent(draft)) draft.line.on = *draft.sent_on;
  }
  if (draft.line.fate == LineFate::refused) tell_how_to_stop(fleet_, draft.said, draft.line.wrong);
  draft.is_new.assign(draft.facts.size(), true);
}

bool DraftReader::may_be_of_day_sent(const Draft& draft) const {
  const auto words = message::words_of(draft.said);
  return may_begin_a_message(fleet_, draft.said) &&
         std::none_of(words.begin(), words.end(), [](const auto& word) { return message::is_like_a_day(word.text); });
}

void DraftReader::share_stamps(std::vector<Draft>& drafts, std::optional<bool> day_comes_first,
                               const std::vector<std::size_t>& not_understood) const {
  Draft above;
  std::size_t block = 0;
  std::optional<Stamped> time;  // the last one of this day
  for (std::size_t i = 0; i < drafts.size(); ++i) {
    Draft& draft = drafts[i];
    const bool is_lost = std::find(not_understood.begin(), not_understood.end(), i) != not_understood.end();
    if (is_lost) {
      ++block;
      above = Draft{};
      above.no_day = fmt::format("line {} looks like a stamp, and is not understood", draft.line.number);
    } else if (draft.stamp) {
      ++block;
      above.stamp = draft.stamp;
      above.line.sender = draft.line.sender;
      if (draft.stamp->names_day) {
        take_day(above, day_comes_first);
      } else {
        take_time(above, time);
      }
      if (draft.stamp->second || draft.stamp->names_day) time = draft.stamp;
    }
    draft.block = block;
    draft.above_stamps = !above.stamp && above.no_day.empty();
    draft.stamp = above.stamp;
    draft.sent_on = above.sent_on;
    draft.sent_counts = above.sent_counts;
    draft.no_day = above.no_day;
    draft.line.sender = above.line.sender;
  }
  const bool any_stamp = std::any_of(drafts.begin(), drafts.end(), [](const Draft& draft) { return !!draft.stamp; });
  for (Draft& draft : drafts) draft.above_stamps = draft.above_stamps && any_stamp;
}

void DraftReader::take_day(Draft& above, std::optional<bool> day_comes_first) const {
  const auto day = day_of(*above.stamp, day_comes_first);
  const bool is_told =
      !day.value && ask_.on && (ask_.on == above.stamp->day_first || ask_.on == above.stamp->month_first);
  above.sent_on = is_told ? ask_.on : day.value;
  above.sent_counts = above.stamp->counts;
  above.no_day = is_told ? "" : day.problem;
}

void DraftReader::take_time(Draft& above, const std::optional<Stamped>& time) const {
  if (!above.sent_on && above.no_day.empty()) {
    above.sent_on = ask_.on;
    if (!ask_.on) {
      above.no_day = fmt::format("the stamp `{}` names none, and none stands above it", above.stamp->text);
    }
  } else if (above.sent_on && time && time->second && *above.stamp->second < *time->second) {
    above.sent_on.reset();
    above.no_day = fmt::format("the time `{}` is earlier than `{}` above it", above.stamp->text, time->text);
  }
}

}  // namespace service::entry
