// `mail`: the overdue list as a message, for cron or a timer. Nothing is mailed only when all is well and all is known.
#include <fmt/format.h>

#include <optional>

#include "backup_day.h"
#include "commands/commands.h"
#include "mailer.h"
#include "mistakes.h"
#include "output.h"
#include "render/mail/letter.h"
#include "render/mail/mime.h"
#include "service/due_list.h"
#include "service/kept_books.h"
#include "session.h"
#include "today.h"

namespace cli {
namespace {

using service::Failure;
using service::FailureKind;

void check_options(const Arguments& arguments) {
  const bool hands_over = arguments.has("mailer");
  if (hands_over && arguments.has("output")) {
    wrong("options-clash", "`--mailer` and `--output` do not go together",
          "the mailer gets the message; leave one of them out");
  }
}

Failure nobody_to_write_to(const std::filesystem::path& folder) {
  const service::Place place{(folder / "fleet.yaml").lexically_normal().string(), 0, 0, 0, {}};
  return {FailureKind::bad_fleet,
          {"no-mail-to", "`mail` needs somebody to write to, and there is no `mail:` with `to:`",
           "add the line `mail: {to: [office@skarvey.example]}` with your own address", place}};
}

// As far as the fleet file can be read. Nothing where nobody can be written to: then standard error is all there is.
struct ToTell {
  service::Mail mail;
  std::string fleet;  // its name; empty: not known
};
std::optional<ToTell> told_by(const std::filesystem::path& folder) {
  try {
    const service::FleetFiles files{folder, {{"fleet.yaml", read_file(folder / "fleet.yaml")}}};
    const auto mail = mail_of(files);
    return mail ? std::optional(ToTell{*mail, name_of(files)}) : std::nullopt;
  } catch (const Failure&) {
    return std::nullopt;
  }
}

// A fleet is its owner's alone, and cron runs as somebody.
constexpr const char* as_its_owner =
    "run `mail` as the user whose fleet it is (his own crontab, or User= of the systemd service)";

// What to do where it runs unattended.
Failure with_advice(const Failure& failure, const std::string& handed_file) {
  std::vector<service::Diagnostic> told = failure.diagnostics();
  for (service::Diagnostic& diagnostic : told) {
    if (diagnostic.code != "record-unreadable" && diagnostic.code != "unfinished-write") continue;
    diagnostic.hint += fmt::format(
        "{}{}; or let that user read it, with chmod g+r on record.db and a group that both are in, and with --mailer "
        "write {} and the folder it is in, with chmod g+rw on both",
        diagnostic.hint.empty() ? "" : "; ", as_its_owner, handed_file);
  }
  return {failure.kind(), std::move(told)};
}

class Mailing {
 public:
  explicit Mailing(Context& context) : context_(context), arguments_(context.arguments) {
    check_options(arguments_);
    if (const auto written = arguments_.value("mailer")) mailer_ = mailer_words(*written);
    // A message is read anywhere: what it names of the fleet, it names by its whole path.
    folder_ = std::filesystem::absolute(fleet_folder(context)).lexically_normal();
    if (!folder_.has_filename()) folder_ = folder_.parent_path();  // `.`, or a stroke at its end
    context_.look.command = command_about(folder_.string());
  }

  int run() {
    try {
      open();
    } catch (const Failure& failure) {
      if (failure.kind() == FailureKind::usage) throw;
      return mail_failure(with_advice(failure, service::handed_file_of(scope_)));
    }
    return mail_list();
  }

 private:
  bool only_changed() const { return arguments_.has("changed"); }

  // All that can fail for a reason that is to be mailed.
  void open() {
    session_ = open_fleet(context_, folder_);
    scope_ = scope_of(arguments_, *session_.fleet, arguments_.words.size());
    if (session_.fleet->mail.to.empty()) {
      has_nobody_ = true;
      return;
    }
    before_ = handed_before();
    no_lists_ = no_lists_sent();
    list_again_ = hands_over() && owes_whole_list(before_ ? &*before_ : nullptr, no_lists_);
    weekly_ =
        has_weekly_word() && (knows_nothing_before() ||
                              service::weekly_word_is_on(*session_.fleet, session_.today, only_changed(), last_word()));
    const auto record = open_record(context_, folder_, service::Access::read);
    // Of all facts: whoever has nothing else but this message is told of a damaged record by it.
    const auto snapshot = take_learnt_snapshot(session_.fleet, record, session_.today, session_.day_is_given, scope_);
    const auto detail = weekly_ ? service::Detail::everything : service::Detail::standings;
    list_ = due_list(snapshot, {session_.today + std::chrono::days{30}, {}, detail});
    // Where nothing was told before, or nobody knows what, or the last word was that there is no list, all is told, and
    // as that.
    const bool everything = !only_changed() || weekly_ || !before_ || list_again_;
    news_ = overdue_news(list_, everything ? nullptr : &*before_, &snapshot);
  }

  int mail_list() {
    if (has_nobody_) throw nobody_to_write_to(session_.folder);
    service::OverdueNews& news = news_;
    const WordOfTheWeek word =
        weekly_ ? WordOfTheWeek(weekly_word(list_, last_backup(folder_), missed())) : std::nullopt;
    const int status = arguments_.has("exit-code") && needs_doing(list_) ? 1 : 0;
    if (news.blocks.empty() && !word && !list_again_) {
      keep_quietly(std::move(news.then));
      return status;
    }
    Letter letter = !news.blocks.empty() ? letter_of_news(list_, news, word, context_.look.command)
                    : word               ? letter_of_week(list_, *word, context_.look.command)
                                         : letter_of_return(list_);
    if (list_again_) say_list_again(letter, no_lists_.last);
    if (!not_known_before_.empty()) say_not_known_before(letter, handed_file().filename().string(), not_known_before_);
    try {
      send(session_.fleet->mail, letter);
    } catch (const Failure&) {
      owe_the_word();
      throw;
    }
    keep_handed(std::move(news.then));
    return status;
  }

  int mail_failure(const Failure& failure) {
    const bool has_fleet = session_.fleet != nullptr;
    const auto told = has_fleet ? std::optional(ToTell{session_.fleet->mail, session_.fleet->name}) : told_by(folder_);
    if (!told) throw failure;
    if (!has_fleet) session_.today = day_of_clock();
    try {
      send(told->mail, letter_of_failure(failure, {told->fleet, has_fleet}, context_.look.command));
    } catch (const Failure& mailer) {
      std::vector<service::Diagnostic> both = mailer.diagnostics();
      both.insert(both.end(), failure.diagnostics().begin(), failure.diagnostics().end());
      throw Failure(mailer.kind(), std::move(both));
    }
    context_.also = failure.diagnostics();
    if (hands_over()) keep_no_list();
    return static_cast<int>(failure.kind());
  }

  // Where the fleet's time zone is not known.
  service::Day day_of_clock() const {
    return day_option(arguments_, "as-of", day_in_zone(context_.world.milliseconds(), ""));
  }

  void send(const service::Mail& mail, const Letter& letter) {
    Message message;
    message.to = mail.to;
    message.from = mail.from.empty() ? mail.to.front() : mail.from;
    message.subject = letter.subject;
    message.on = session_.today;
    set_moment(message);
    message.text = letter_as_text(letter);
    message.html = letter_as_html(letter);
    std::string bytes = message_bytes(message);
    if (mailer_.empty()) {
      context_.out = std::move(bytes);
    } else {
      hand_over(mailer_, bytes);
    }
  }

  // The beginning of the day that is asked about; else now, so that messages stand in the order in which they came.
  void set_moment(Message& message) const {
    const std::string zone = session_.fleet == nullptr ? "" : session_.fleet->time_zone;
    if (arguments_.has("as-of")) {
      message.written_on = session_.today;
      message.ahead_of_utc = ahead_of_utc(session_.today, zone);
      return;
    }
    const LocalTime now = local_time(context_.world.milliseconds(), zone);
    message.written_on = now.day;
    message.since_midnight = now.since_midnight;
    message.ahead_of_utc = now.ahead_of_utc;
  }

  bool has_weekly_word() const { return service::has_weekly_word(*session_.fleet, only_changed()); }
  bool hands_over() const { return !mailer_.empty(); }
  // Only what this program hands over itself is known to have gone out. `--changed` alone is a look ahead.
  bool rests_on_what_was_handed() const { return only_changed() || (hands_over() && has_weekly_word()); }

  // What the last message held. None where there was none, or that cannot be known: then all is new.
  std::optional<service::Handed> handed_before() {
    if (!only_changed() && !hands_over()) return std::nullopt;
    std::string text;
    try {
      text = read_file(handed_file());
    } catch (const Failure& failure) {
      if (failure.diagnostics().front().code == "is-folder") {
        not_known_before("is a folder", "move it away");
      } else if (failure.kind() != FailureKind::not_found) {
        not_known_before("cannot be read", as_its_owner);
      }
      return std::nullopt;
    }
    auto handed = service::parse_handed(text, session_.fleet->name, session_.today);
    if (handed) return handed.value;
    not_known_before(handed.problem, "");
    return std::nullopt;
  }

  // Of all messages from this folder. What cannot be read tells nothing, and may be one more than was told of.
  service::NoLists no_lists_sent() const {
    std::string text;
    try {
      text = read_file(folder_ / service::no_lists_file);
    } catch (const Failure& failure) {
      return failure.kind() == FailureKind::not_found ? service::NoLists{} : service::NoLists{1, session_.today};
    }
    return service::parse_no_lists(text).value.value_or(service::NoLists{1, session_.today});
  }

  // After the mailer said that it has the message: whoever got it knows of no list until he is told of the next.
  void keep_no_list() const {
    service::NoLists sent = no_lists_sent();
    constexpr int highest = 1'000'000;  // what a count may be
    sent = {sent.count % highest + 1, session_.today};
    constexpr unsigned for_its_owner_alone = 0600;
    try {
      service::write_file(folder_ / service::no_lists_file, to_text(sent), for_its_owner_alone,
                          service::IfThere::replace,
                          "the message was handed over; the next list may leave out what was told before it");
    } catch (const Failure& failure) {
      const auto& told = failure.diagnostics();
      context_.also.insert(context_.also.end(), told.begin(), told.end());
    }
  }

  // Then the word may be owed, and is said.
  bool knows_nothing_before() const { return !not_known_before_.empty(); }
  std::vector<service::Day> missed() const { return weekly_words_missed(*session_.fleet, session_.today, last_word()); }
  std::filesystem::path handed_file() const { return folder_ / service::handed_file_of(scope_); }
  std::optional<service::Day> last_word() const { return before_ ? before_->word : std::nullopt; }

  void not_known_before(const std::string& problem, const std::string& hint) {
    if (!rests_on_what_was_handed()) return;
    not_known_before_ = problem;
    context_.also.push_back(
        {"mailed-not-known",
         fmt::format("{} {}, so all is mailed again", handed_file().lexically_normal().string(), problem),
         hint,
         {},
         service::Severity::remark});
  }

  // The last word, else this day, from which it is owed; none where it never comes.
  std::optional<service::Day> owed_since() const {
    return last_word() || !rests_on_what_was_handed() ? last_word() : std::optional(session_.today);
  }

  // After the mailer said that it has the message, and never before: cut short between the two, the next message
  // repeats and nothing is lost.
  void keep_handed(service::Handed then) const {
    if (!hands_over()) return;
    then.word = weekly_ ? session_.today : owed_since();
    then.no_lists = no_lists_.count;
    keep(std::move(then), "the message was handed over; the next one repeats it until this file can be written");
  }

  // On a morning without a message: what was answered is forgotten, so that it is news when it comes back; and before
  // the first message the word is owed from now on.
  void keep_quietly(service::Handed then) const {
    if (!hands_over()) return;
    then.word = owed_since();
    then.no_lists = no_lists_.count;
    if (before_ && before_->entries == then.entries && before_->word == then.word) return;
    if (!before_ && !rests_on_what_was_handed()) return;  // nothing was told, and nothing is owed
    keep(std::move(then),
         "nothing had to be mailed; until this file can be written, what comes back may be taken for "
         "what was told");
  }

  // It failed, and nothing is known of any before: it is owed from this day on, and nothing else is kept of it.
  void owe_the_word() const {
    if (!weekly_ || last_word() || knows_nothing_before() || !hands_over()) return;
    auto then = before_.value_or(service::Handed{service::cleaned(session_.fleet->name), session_.today, {}, {}});
    then.word = session_.today - std::chrono::days{1};
    try {
      keep(std::move(then), "");
    } catch (const Failure&) {
      return;  // that the mailer failed is said, and is what counts
    }
  }

  void keep(service::Handed then, const char* so) const {
    then.on = session_.today;
    constexpr unsigned for_its_owner_alone = 0600;
    try {
      service::write_file(handed_file(), service::to_text(then), for_its_owner_alone, service::IfThere::replace, so);
    } catch (const Failure& failure) {
      // Of a full message, with no word owed, only a later --changed would ask; it tells all where nothing is kept.
      std::error_code error;
      if (!rests_on_what_was_handed() && !std::filesystem::exists(handed_file(), error)) return;
      std::vector<service::Diagnostic> told = failure.diagnostics();
      for (service::Diagnostic& one : told) {
        one.hint +=
            fmt::format("{}{}; the folder must be writable for that user", one.hint.empty() ? "" : "; ", as_its_owner);
      }
      throw Failure(failure.kind(), std::move(told));
    }
  }

  Context& context_;
  const Arguments& arguments_;
  std::vector<std::string> mailer_;
  std::filesystem::path folder_;
  Session session_;
  service::Scope scope_;  // the whole fleet, or one site
  bool has_nobody_ = false;
  bool weekly_ = false;
  service::DueList list_;
  service::OverdueNews news_;  // points into the list
  std::optional<service::Handed> before_;
  service::NoLists no_lists_;
  bool list_again_ = false;  // the last message said that there is no list, and this one has one
  std::string not_known_before_;
};

}  // namespace

int mail(Context& context) { return Mailing(context).run(); }

}  // namespace cli
