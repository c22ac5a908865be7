#include "fleet/fleet_file.h"

#include "fleet/fleet_sections.h"
#include "fleet/keys.h"
#include "fleet/limbs.h"
#include "fleet/machines.h"
#include "fleet/week_hours.h"

namespace service::fleet {
namespace {

// Could it be a name of the time zone database? Whether it is one is seen when it is used.
Parsed<std::string> parse_time_zone(std::string_view text) {
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  const bool well_made = letter(text.front()) && text.back() != '/' && text.find("//") == std::string_view::npos &&
                         std::all_of(text.begin(), text.end(), [&](char c) {
                           return letter(c) || (c >= '0' && c <= '9') || c == '/' || c == '_' || c == '+' || c == '-';
                         });
  if (!well_made) return {{}, "is not the name of one"};
  return {std::string(text), {}};
}

constexpr Wanted a_time_zone{code::bad_time_zone, "a time zone", "write its name, such as Europe/Oslo"};

void read_time_zone(const Reader& reader, const Field& field, Draft& into) {
  into.fleet.time_zone = reader.parsed(field, parse_time_zone, a_time_zone).value_or("");
}

// Dots stand between words of these signs, as in the dot-atoms of RFC 5322.
bool is_dotted(std::string_view text, std::string_view signs) {
  const auto may_stand = [&](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' ||
           signs.find(c) != std::string_view::npos;
  };
  return std::all_of(text.begin(), text.end(), may_stand) && text.front() != '.' && text.back() != '.' &&
         text.find("..") == std::string_view::npos;
}

Parsed<std::string> parse_address(std::string_view text) {
  const std::size_t at = text.find('@');
  const bool one_at = at != std::string_view::npos && text.find('@', at + 1) == std::string_view::npos;
  if (!one_at) return {{}, "does not have one @"};
  if (at == 0 || at + 1 == text.size()) return {{}, "has nothing on one side of the @"};
  // What could end the address in a message's header, or begin another one, is no part of an address here; and plain
  // mail carries no letters beyond ASCII in one.
  if (!is_dotted(text.substr(0, at), "!#$%&'*+-/=?^_`{|}~") || !is_dotted(text.substr(at + 1), "-")) {
    return {{}, "has blanks or signs that an address cannot have"};
  }
  constexpr std::size_t longest_local = 64;  // RFC 5321
  constexpr std::size_t longest = 254;
  if (at > longest_local || text.size() > longest) return {{}, "is longer than addresses may be"};
  return {std::string(text), {}};
}

constexpr Wanted an_address{code::bad_address, "a mail address", "write it like office@skarvey.example"};

void read_mail_to(const Reader& reader, const Field& field, Mail& into) {
  for (const Field& item : reader.list(field, "write a list: [office@skarvey.example]")) {
    if (auto address = reader.parsed(item, parse_address, an_address)) into.to.push_back(std::move(*address));
  }
  if (field.value->kind == Node::Kind::list && field.value->items.empty()) {
    reader.error(code::empty_value, reader.spot(field), "`to` has no value", "write who gets the mail");
  }
}

void read_weekly_word(const Reader& reader, const Field& field, Mail& into) {
  const Wanted wanted{code::bad_weekday, "a weekday, or off", "write it like monday, or off"};
  const Node* const node = reader.scalar(field, wanted);
  if (node == nullptr) return;
  into.weekly_word = parse_weekday(node->text);
  if (node->text == "off") return;
  if (!into.weekly_word) reader.complain(field, wanted, node->text, "is none");
}

constexpr Key<Mail> mail_keys[] = {
    {"to", read_mail_to, Need::required},
    {"from",
     [](const Reader& r, const Field& f, Mail& m) { m.from = r.parsed(f, parse_address, an_address).value_or(""); }},
    {"weekly-word", read_weekly_word},
};

// `60 days`, `8 weeks`, or a plain count of days.
void read_stale_after(const Reader& reader, const Field& field, Draft& into) {
  constexpr Limits limits{1, 36525};
  const Node& node = *field.value;
  const bool plain_count = node.kind == Node::Kind::scalar && !node.text.empty() &&
                           node.text.find_first_not_of("0123456789") == std::string::npos;
  const auto days = plain_count ? reader.count(field, limits) : reader.days(field, limits);
  into.fleet.stale_after_days = days.value_or(into.fleet.stale_after_days);
}

template <void (*read)(const Reader&, const Field&)>
void into_draft(const Reader& reader, const Field& field, Draft& /*reader.draft, where all of these write*/) {
  read(reader, field);
}

constexpr Key<Draft> fleet_keys[] = {
    {"fleet", [](const Reader& r, const Field& f, Draft& d) { d.fleet.name = r.text(f).value_or(""); }, Need::required},
    {"time-zone", read_time_zone},
    {"grace", [](const Reader& r, const Field& f, Draft& d) { d.fleet.grace = read_grace(r, f).value_or(Grace{}); }},
    {"stale-after", read_stale_after},
    {"mail", [](const Reader& r, const Field& f, Draft& d) { read_keys(r, f, "`mail`", mail_keys, d.fleet.mail); }},
    {"sites", into_draft<read_sites>},
    {"seasons", into_draft<read_seasons>},
    {"machines", into_draft<read_machines>},
    {"currency", [](const Reader& r, const Field& f, Draft& d) { d.fleet.currency = r.text(f).value_or(""); }},
    {"parts", into_draft<read_parts>},
    {"crews", into_draft<read_crews>},
    {"travel", into_draft<read_travel>},
    {"costs", into_draft<read_costs>},
    {"calls", into_draft<read_calls>},
};

}  // namespace

Mail read_mail(const Reader& reader, const Node& root) {
  Mail mail;
  for (const Entry& entry : root.entries) {
    if (entry.key.text == "mail") read_keys(reader, {"mail", entry.key.span, &entry.value}, "`mail`", mail_keys, mail);
  }
  return mail;
}

void read_fleet_file(const Reader& reader, const Node& root) {
  if (root.kind != Node::Kind::map) {
    for (const Noun noun : {Noun::site, Noun::season, Noun::machine, Noun::part}) reader.draft.unsure_of(noun) = true;
  }
  read_keys(reader, {"fleet.yaml", {}, &root}, "fleet.yaml", fleet_keys, reader.draft);
}

}  // namespace service::fleet
