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
#include "service/snapshot.h"
#include "session.h"
#include "today.h"

namespace cli {
namespace {

using service::Failure;
using service::FailureKind;

void check_options(const Arguments& arguments) {
  const bool hands_over = arguments.has("mailer");
  if (arguments.has("changed") && !hands_over) {
    wrong("options-clash", "`--changed` needs `--mailer`",
          "what was mailed is known only of what this program hands over itself: --mailer \"sendmail -t -i\"");
  }
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
std::optional<service::Mail> mail_told(const std::filesystem::path& folder) {
  try {
    return mail_of(service::FleetFiles{folder, {{"fleet.yaml", read_file(folder / "fleet.yaml")}}});
  } catch (const Failure&) {
    return std::nullopt;
  }
}

// A record is its owner's alone, and cron runs as somebody: what to do where that is somebody else.
Failure with_advice(const Failure& failure) {
  std::vector<service::Diagnostic> told = failure.diagnostics();
  for (service::Diagnostic& diagnostic : told) {
    if (diagnostic.code != "record-unreadable" && diagnostic.code != "unfinished-write") continue;
    diagnostic.hint += fmt::format(
        "{}run `mail` as the user whose fleet it is (his own crontab, or User= of the systemd service); or let that "
        "user read it, with chmod g+r on record.db and a group that both are in",
        diagnostic.hint.empty() ? "" : "; ");
  }
  return {failure.kind(), std::move(told)};
}

class Mailing {
 public:
  explicit Mailing(Context& context) : context_(context), arguments_(context.arguments) {
    check_options(arguments_);
    if (const auto written = arguments_.value("mailer")) mailer_ = mailer_words(*written);
    folder_ = fleet_folder(context);
  }

  int run() {
    try {
      open();
    } catch (const Failure& failure) {
      if (failure.kind() == FailureKind::usage) throw;
      return mail_failure(with_advice(failure));
    }
    return mail_list();
  }

 private:
  bool only_changed() const { return arguments_.has("changed"); }

  // All that can fail for a reason that is to be mailed.
  void open() {
    session_ = open_fleet(context_);
    if (session_.fleet->mail.to.empty()) {
      has_nobody_ = true;
      return;
    }
    weekly_ = service::weekly_word_is_on(*session_.fleet, session_.today, only_changed());
    const auto record = open_record(folder_, service::Access::read);
    const auto snapshot = take_snapshot(session_.fleet, record, session_.today, session_.day_is_given);
    const auto detail = weekly_ ? service::Detail::everything : service::Detail::standings;
    list_ = due_list(snapshot, {session_.today + std::chrono::days{30}, {}, detail});
  }

  int mail_list() {
    if (has_nobody_) throw nobody_to_write_to(session_.folder);
    const auto before = only_changed() ? handed_before() : std::nullopt;
    const service::OverdueNews news = overdue_news(list_, before && !weekly_ ? &*before : nullptr);
    const WordOfTheWeek word = weekly_ ? WordOfTheWeek(weekly_word(list_, last_backup(folder_))) : std::nullopt;
    const int status = arguments_.has("exit-code") && needs_doing(list_) ? 1 : 0;
    if (news.blocks.empty() && !word) return status;
    Letter letter = news.blocks.empty() ? letter_of_week(list_, *word, context_.look.command)
                                        : letter_of_news(list_, news, word, context_.look.command);
    if (!not_known_before_.empty()) say_not_known_before(letter, not_known_before_);
    send(session_.fleet->mail, letter);
    if (only_changed()) keep(news.then);
    return status;
  }

  int mail_failure(const Failure& failure) {
    const bool has_fleet = session_.fleet != nullptr;
    const auto mail = has_fleet ? std::optional(session_.fleet->mail) : mail_told(folder_);
    if (!mail) throw failure;
    if (!has_fleet) session_.today = day_of_clock();
    try {
      send(*mail, letter_of_failure(failure, has_fleet ? session_.fleet->name : "", context_.look.command));
    } catch (const Failure& mailer) {
      std::vector<service::Diagnostic> both = mailer.diagnostics();
      both.insert(both.end(), failure.diagnostics().begin(), failure.diagnostics().end());
      throw Failure(mailer.kind(), std::move(both));
    }
    context_.also = failure.diagnostics();
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
    message.ahead_of_utc = ahead_of_utc(session_.today, session_.fleet == nullptr ? "" : session_.fleet->time_zone);
    message.text = letter_as_text(letter);
    message.html = letter_as_html(letter);
    std::string bytes = message_bytes(message);
    if (mailer_.empty()) {
      context_.out = std::move(bytes);
    } else {
      hand_over(mailer_, bytes);
    }
  }

  // What the last message held. Where that cannot be known all is new.
  std::optional<service::Handed> handed_before() {
    const service::Handed nothing;
    std::string text;
    try {
      text = read_file(folder_ / service::handed_file);
    } catch (const Failure& failure) {
      if (failure.kind() != FailureKind::not_found) not_known_before("cannot be read");
      return nothing;
    }
    auto handed = service::parse_handed(text, session_.fleet->name, session_.today);
    if (handed) return handed.value;
    not_known_before(handed.problem);
    return nothing;
  }

  void not_known_before(const std::string& problem) {
    not_known_before_ = problem;
    context_.also.push_back({"mailed-not-known",
                             fmt::format("{} {}, so all is mailed again",
                                         (folder_ / service::handed_file).lexically_normal().string(), problem),
                             "",
                             {},
                             service::Severity::remark});
  }

  // After the mailer said that it has the message, and never before: cut short between the two, the next message
  // repeats and nothing is lost.
  void keep(const service::Handed& then) const {
    constexpr unsigned for_its_owner_alone = 0600;
    service::write_file(folder_ / service::handed_file, service::to_text(then), for_its_owner_alone,
                        service::IfThere::replace,
                        "the message was handed over; the next one repeats it until this file can be written");
  }

  Context& context_;
  const Arguments& arguments_;
  std::vector<std::string> mailer_;
  std::filesystem::path folder_;
  Session session_;
  bool has_nobody_ = false;
  bool weekly_ = false;
  service::DueList list_;
  std::string not_known_before_;
};

}  // namespace

int mail(Context& context) { return Mailing(context).run(); }

}  // namespace cli
