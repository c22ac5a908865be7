// The ways in which people say that a machine must not run.
#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "entry/clauses.h"
#include "entry/message_denial.h"
#include "entry/message_overheard.h"
#include "entry/stop_phrases.h"
#include "service/snapshot.h"
#include "service/text.h"
#include "service/told_signs.h"

namespace service {
namespace {

using View = std::string_view;

// A word in plain small letters without its apostrophe, and where it stands.
struct StopWord {
  std::string text;
  std::size_t at = 0;
};
using StopWords = std::span<const StopWord>;

std::vector<StopWord> stop_words_of(View text) {
  std::vector<StopWord> words;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    for (std::string& word : entry::plain_words(text.substr(at, end - at))) {
      std::erase(word, '\'');
      words.push_back({std::move(word), at});
    }
    at = end + 1;
  }
  return words;
}

std::vector<View> words_in(View text) {
  std::vector<View> words;
  while (!text.empty()) {
    words.push_back(text.substr(0, text.find(' ')));
    text.remove_prefix(std::min(text.size(), words.back().size() + 1));
  }
  return words;
}

bool begins_with(StopWords words, std::span<const View> these) {
  return words.size() >= these.size() && std::equal(these.begin(), these.end(), words.begin(),
                                                    [](View one, const StopWord& word) { return word.text == one; });
}

// How many words of this text they begin with, all or none. It is asked of every word of every note of a file.
std::size_t begun_by(StopWords words, View text) {
  std::size_t count = 0;
  while (!text.empty()) {
    const View one = text.substr(0, text.find(' '));
    if (count == words.size() || words[count].text != one) return 0;
    ++count;
    text.remove_prefix(std::min(text.size(), one.size() + 1));
  }
  return count;
}

// The longest of these texts with which the words begin or end: how many words that is.
std::size_t begun_by(StopWords words, std::span<const View> texts) {
  std::size_t most = 0;
  for (const View text : texts) most = std::max(most, begun_by(words, text));
  return most;
}

std::size_t ended_by(StopWords words, std::span<const View> texts) {
  std::size_t most = 0;
  for (const View text : texts) {
    const auto these = words_in(text);
    if (words.size() >= these.size() && begins_with(words.last(these.size()), these)) {
      most = std::max(most, these.size());
    }
  }
  return most;
}

constexpr auto out_of_use = std::to_array<View>({"out of use", "taken out of use", "put out of use", "out of service"});
constexpr auto forbids = std::to_array<View>(
    {"do not", "dont", "must not", "mustnt", "never", "must never", "not safe to", "unsafe to", "not to"});
constexpr auto forbids_being = std::to_array<View>(
    {"must not be", "mustnt be", "must never be", "not to be", "do not let it be", "not safe to be"});
constexpr auto to_run = std::to_array<View>({"run", "use", "drive", "ride", "start", "operate"});
constexpr auto being_run = std::to_array<View>({"run", "used", "driven", "started", "operated"});
constexpr auto may_precede =
    std::to_array<View>({"please", "pls", "so", "and", "now", "its", "it is", "it", "is now", "this is", "this",
                         "machine is", "the machine is", "machine", "the machine"});
constexpr auto may_follow =
    std::to_array<View>({"it", "this", "machine", "the machine", "this machine", "please", "pls", "now", "it now"});

constexpr auto standing = std::to_array<View>(
    {"parked", "parked up", "keep it parked", "keep parked", "leave it parked", "leave parked", "stays parked",
     "it stays parked", "stay parked", "must stay parked", "keep it off the road", "off the road"});
constexpr auto until =
    std::to_array<View>({"until", "till", "until it is", "till it is", "until it", "till it", "until its", "till its"});
constexpr auto is_well = std::to_array<View>({"mended", "repaired", "fixed", "put right"});

// `parked until mended`, and nothing else.
bool stands_until_mended(StopWords words) {
  for (const auto part : {std::span<const View>(standing), std::span<const View>(until)}) {
    const std::size_t count = begun_by(words, part);
    if (count == 0) return false;
    words = words.subspan(count);
  }
  return !words.empty() && begun_by(words, is_well) == words.size();
}

// One of the usual ways, and nothing else: `please do not use it`.
bool is_stop(StopWords words) {
  for (std::size_t count = 1; count > 0 && !words.empty();) {
    if (ended_by(words, out_of_use) == words.size() || stands_until_mended(words)) return true;
    count = begun_by(words, may_precede);
    words = words.subspan(count);
  }
  while (const std::size_t count = ended_by(words, may_follow)) words = words.first(words.size() - count);
  if (stands_until_mended(words)) return true;
  const std::size_t being = begun_by(words, forbids_being);
  if (being > 0 && begun_by(words.subspan(being), being_run) + being == words.size()) return being < words.size();
  const std::size_t forbidden = begun_by(words, forbids);
  if (forbidden > 0 && forbidden < words.size()) {
    return begun_by(words.subspan(forbidden), to_run) + forbidden == words.size();
  }
  return ended_by(words, out_of_use) == words.size() && !words.empty();
}

// Letters that changed places, and one too many or too few in a long word.
bool is_slip_of(const std::string& written, View word) {
  if (written == word) return true;
  if (written == std::string(word) + 's') return false;  // another word: `never starts`
  constexpr std::size_t long_word = 5;
  std::string a = written;
  std::string b(word);
  std::sort(a.begin(), a.end());
  std::sort(b.begin(), b.end());
  if (a == b) return true;
  if (word.size() < long_word) return false;
  const std::string& shorter = a.size() < b.size() ? a : b;
  const std::string& longer = a.size() < b.size() ? b : a;
  return longer.size() == shorter.size() + 1 &&
         std::includes(longer.begin(), longer.end(), shorter.begin(), shorter.end());
}

bool slips_of(StopWords words, std::span<const View> these) {
  return words.size() >= these.size() &&
         std::equal(these.begin(), these.end(), words.begin(),
                    [](View one, const StopWord& word) { return is_slip_of(word.text, one); });
}

// Those that may be meant of a part of the machine, or of another day, or hang on something; some of them in other
// languages. From memory, and not whole: none can be.
constexpr auto may_stop = std::to_array<View>(
    {"out of use", "out off use", "outof use", "out of service", "out of order", "out of action", "not safe",
     "isnt safe", "unsafe", "dangerous", "unfit", "not fit", "not for use", "not roadworthy", "unroadworthy",
     "no driving", "no go", "stop using", "stop driving", "stop running", "keep off", "stay off", "keep away",
     "stay away", "tagged out", "locked out", "locked off", "condemned", "quarantined", "grounded", "red tag",
     "red tagged", "parked it up", "park it until", "park it till", "park it up", "leave it where it is",
     "leave it off", "shut it down", "must not go out", "do not let anyone", "dont let anyone", "do not let anybody",
     "dont let anybody", "do not load", "dont load", "must not load", "must not be loaded", "do not lift", "dont lift",
     "must not lift", "must not be lifted",
     // German, Dutch, Danish, Norwegian, Swedish
     "ausser betrieb", "nicht fahren", "nicht benutzen", "nicht verwenden", "nicht starten", "nicht einschalten",
     "gesperrt", "stillgelegt", "bleibt stehen", "stehen lassen", "gefaehrlich", "gefahrlich", "gefaehrliche",
     "gefahrliche", "nicht fahrbereit", "nicht verkehrssicher", "nicht betriebssicher", "nicht anlassen",
     "darf nicht auf die strasse", "darf nicht in betrieb", "finger weg", "buiten gebruik", "buiten dienst",
     "niet gebruiken", "niet rijden", "niet starten", "ude af drift", "ikke bruges", "ikke koeres", "ute av drift",
     "ikke bruk", "ikke brukes", "ikke kjoer", "ikke kjoeres", "ikke start", "ikke kjor", "ikke kor", "ur drift",
     "ur bruk", "far ej", "far inte", "anvand inte", "anvaend inte", "koer inte", "kor inte",
     // Finnish
     "ei saa ajaa", "ei saa kayttaa", "ei saa kaeyttaeae", "ei saa kaynnistaa", "ei saa kaeynnistaeae",
     // French, Spanish, Portuguese, Italian, Romanian
     "hors service", "hors d usage", "hors dusage", "ne pas utiliser", "ne pas demarrer", "ne pas rouler",
     "ne pas conduire", "ne plus utiliser", "interdit", "interdite", "a l arret", "a larret", "fuera de servicio",
     "fuera de uso", "no usar", "no utilizar", "no arrancar", "no conducir", "fora de servico", "fora de uso",
     "nao usar", "nao use", "nao utilizar", "nao ligar", "nao ligue", "nao conduza", "fuori servizio", "fuori uso",
     "non usare", "non utilizzare", "non avviare", "non guidare", "fermo macchina", "scos din uz", "nu folosi",
     "nu folositi", "nu porniti",
     // Polish, Czech, Slovak, Russian, Ukrainian
     "nie uzywac", "nie uruchamiac", "nie jezdzic", "nie jechac", "wylaczony z uzytku", "mimo provoz", "nepouzivat",
     "nepouzivej", "nepoustet", "nejezdit", "mimo prevadzky",
     "\u043d\u0435 \u0438\u0441\u043f\u043e\u043b\u044c\u0437\u043e\u0432\u0430\u0442\u044c",
     "\u043d\u0435 \u0437\u0430\u043f\u0443\u0441\u043a\u0430\u0442\u044c",
     "\u043d\u0435 \u0435\u0437\u0434\u0438\u0442\u044c",
     "\u043d\u0435 \u0432\u043a\u043b\u044e\u0447\u0430\u0442\u044c"});
constexpr auto may_forbid = std::to_array<View>({"do not", "dont", "must not", "mustnt", "should not", "shouldnt",
                                                 "shall not", "may not", "never", "not to", "nobody", "no one", "noone",
                                                 "not safe to", "cannot be", "can not be", "cant be", "better not"});
constexpr auto any_run =
    std::to_array<View>({"run", "use", "uses", "used", "drive", "drives", "driven", "ride", "ridden", "start",
                         "started", "operate", "operates", "operated", "move", "moved", "touch"});

constexpr std::size_t between = 2;  // `nobody is to drive`

// They begin with what forbids, and with what it forbids soon behind it.
bool may_forbid_running(StopWords words, const entry::Forbidding& forbidding) {
  const std::size_t forbidden = begun_by(words, forbidding.forbids);
  for (std::size_t i = forbidden; forbidden > 0 && i < words.size() && i <= forbidden + between; ++i) {
    if (begun_by(words.subspan(i), forbidding.running) > 0) return true;
  }
  return false;
}

// Where such words begin; as many as there are: nowhere.
std::size_t may_stop_at(StopWords words) {
  for (std::size_t at = 0; at < words.size(); ++at) {
    const StopWords rest = words.subspan(at);
    for (const View text : may_stop) {
      if (begun_by(rest, text) > 0) return at;
      if (!text.starts_with("out ")) continue;
      const auto these = words_in(text);
      if (these.size() == 3 && slips_of(rest, these)) return at;
    }
    const bool forbids_running =
        begun_by(rest, entry::stop_phrases::parked) > 0 ||
        std::any_of(entry::forbiddings.begin(), entry::forbiddings.end(),
                    [&](const entry::Forbidding& one) { return may_forbid_running(rest, one); });
    if (forbids_running) return at;
    const std::size_t forbidden = begun_by(rest, may_forbid);
    for (std::size_t i = forbidden; forbidden > 0 && i < rest.size() && i <= forbidden + between; ++i) {
      const bool runs =
          std::any_of(any_run.begin(), any_run.end(), [&](View one) { return is_slip_of(rest[i].text, one); });
      if (runs) return at;
    }
  }
  return words.size();
}

bool has_any(StopWords words, std::span<const View> these) {
  return std::any_of(words.begin(), words.end(), [&](const StopWord& word) {
    return std::find(these.begin(), these.end(), word.text) != these.end();
  });
}

// What makes it hang on something, tells what somebody else said, or speaks of a day to come.
constexpr auto of_doubt = std::to_array<View>({"if",       "unless", "whether", "when",     "while", "maybe", "perhaps",
                                               "possibly", "might",  "says",    "said",     "say",   "told",  "asks",
                                               "asked",    "thinks", "think",   "tomorrow", "next",  "soon",  "later"});
constexpr auto of_taking_back = std::to_array<View>(
    {"nope", "fixed", "mended", "repaired", "sorry", "cancel", "cancelled", "ignore", "ok", "okay", "back"});
constexpr auto behind_a_denial =
    std::to_array<View>({"longer", "more", "any", "anymore", "true", "so", "machine", "one", "line"});

// `out of use - NOT`, `do not drive, fixed now`, `do not run, wrong machine`; and not `do not use it, no brakes`.
bool takes_back(StopWords words) {
  if (words.empty() || may_stop_at(words) != words.size()) return false;
  if (has_any(words.first(1), of_taking_back)) return true;
  return entry::is_denial(words[0].text) && (words.size() == 1 || has_any(words.subspan(1, 1), behind_a_denial));
}

std::string joined_reason(View one, View other) {
  one = entry::without_marks(one);
  other = entry::without_marks(other);
  return std::string(one) + (one.empty() || other.empty() ? "" : ", ") + std::string(other);
}

}  // namespace

StopTold stop_told(View text) {
  const std::vector<View> clauses = entry::clauses_of(text);
  std::vector<std::vector<StopWord>> words;
  for (const View clause : clauses) words.push_back(stop_words_of(clause));
  const auto offset = [&](View part) { return static_cast<std::size_t>(part.data() - text.data()); };
  bool doubted = text.find('?') != View::npos ||
                 std::any_of(words.begin(), words.end(), [](const auto& one) { return has_any(one, of_doubt); });
  for (std::size_t i = 0; i < clauses.size(); ++i) {
    if (!is_stop(words[i])) continue;
    for (std::size_t k = i + 1; k < clauses.size(); ++k) doubted = doubted || takes_back(words[k]);
    const std::size_t from = offset(clauses[i]);
    if (doubted) return {MustNotRun::may_be_said, joined_reason(text.substr(0, from), "")};
    return {MustNotRun::said, joined_reason(text.substr(0, from), text.substr(from + clauses[i].size()))};
  }
  for (std::size_t i = 0; i < clauses.size(); ++i) {
    const std::size_t at = may_stop_at(words[i]);
    if (at == words[i].size()) continue;
    return {MustNotRun::may_be_said, joined_reason(text.substr(0, offset(clauses[i]) + words[i][at].at), "")};
  }
  return {};
}

StopTold stop_told(const Fleet& fleet, const Machine& machine, View sign, View note) {
  std::vector<std::string> names;
  for (const ListedSign& listed : listed_signs(fleet, machine)) names.push_back(listed.name);
  StopTold told = name_written(sign, names) ? StopTold{} : stop_told(sign);
  if (told.says == MustNotRun::said) return told;
  StopTold of_note = stop_told(note);
  if (of_note.says == MustNotRun::not_said) return told;
  if (!sign.empty()) of_note.why = told.says == MustNotRun::not_said ? std::string(sign) : told.why;
  return of_note;
}

Fact out_of_use_beside(const Fact& seen, std::string note) {
  Fact fact;
  fact.kind = FactKind::out_of_use;
  fact.machine = seen.machine;
  fact.on = seen.on;
  fact.note = std::move(note);
  return fact;
}

}  // namespace service
