// `import`: a file of facts, all rows or none, or with --skip-bad the good ones; messages stand in a file of their own.
#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/import_messages.h"
#include "commands/told_dialect.h"
#include "commands/writing.h"
#include "output.h"
#include "render/shared/dialect_words.h"
#include "service/file_entry.h"
#include "terminal/shell_word.h"

namespace cli {
namespace {

namespace fs = std::filesystem;

// How the file was read, for whoever wants to make sure: always on a dry run, else where it is no plain file.
std::vector<std::string> understood(const service::FactsRead& read, const service::Dialect& told, bool dry_run) {
  const service::Understood& how = read.understood;
  std::vector<std::string> lines;
  if (how.json_lines) {
    if (dry_run) lines.emplace_back("read as JSON Lines");
  } else {
    std::string line = fmt::format("read as {}CSV with {}", how.utf16 ? "UTF-16 " : "", separator_word(how.separator));
    line += dialect_words(how.dialect, how.number_settled_by, how.dates_settled_by, told);
    const bool comma = how.dialect.decimal == service::DecimalMark::comma;
    const bool plain = !how.utf16 && how.separator == ',' && !comma && !how.dialect.dates;
    if (dry_run || !plain) lines.push_back(std::move(line));
  }
  if (read.blanks > 0) {
    lines.push_back(fmt::format("{} left blank; what {} asks for stays unknown",
                                service::counted(read.blanks, "row", "rows"), read.blanks == 1 ? "it" : "each"));
  }
  return lines;
}

// Where the rows go that are wrong. Never in place of another file, and known before anything is stored.
fs::path rejects_file(const Arguments& arguments, const std::string& name) {
  fs::path file;
  if (const auto told = arguments.value("rejects")) {
    file = *told;
  } else if (name == "-") {
    throw service::Failure(service::FailureKind::usage,
                           {"no-name", "standard input has no name for the file of bad rows", "give --rejects FILE"});
  } else {
    file = fs::path(name).replace_extension("rejected" + fs::path(name).extension().string());
  }
  return file;
}

void insist_on_new(const fs::path& file) {
  std::error_code error;
  if (!fs::is_directory(folder_of(file), error)) {
    throw service::Failure(
        service::FailureKind::not_found,
        {"no-folder", fmt::format("there is no folder to hold {}; nothing was stored", file.string()),
         "name another file with --rejects FILE"});
  }
  if (!fs::exists(fs::symlink_status(file, error))) return;
  throw service::Failure(service::FailureKind::bad_data,
                         {"rejects-exist", fmt::format("{} is there already; nothing was stored", file.string()),
                          "mend and import that file, or name another with --rejects FILE"});
}

std::string shown_name(const std::string& name) { return name == "-" ? "standard input" : name; }

// The text goes with the reading of it: it may be large, and is not asked about any more.
service::FactsRead facts_in(Context& context, const std::string& name, const service::Dialect& told) {
  const std::string shown = shown_name(name);
  const std::string text = name == "-" ? context.world.read_input() : read_file(context.world.folder / name);
  constexpr std::string_view database = "SQLite format 3";  // how the file of a record begins
  if (text.starts_with(database)) {
    throw service::Failure(
        service::FailureKind::bad_data,
        {"is-record", fmt::format("{} is a record or another database, not a file of facts", shown),
         fmt::format("if it is a copy of this fleet's record: {} merge {}", context.look.command, shell_word(shown))});
  }
  return service::read_facts(text, shown, told, telling(context.progress, "reading " + service::cleaned(shown)));
}

}  // namespace

int import_facts(Context& context) {
  const Arguments& arguments = context.arguments;
  if (arguments.has("messages")) return import_messages(context);
  insist_on_messages(arguments);
  const std::string& name = arguments.words[0];
  const service::Dialect told = told_dialect(arguments);
  const bool skip_bad = arguments.has("skip-bad");
  if (arguments.has("rejects") && !skip_bad) {
    throw service::Failure(service::FailureKind::usage,
                           {"options-clash", "`--rejects` belongs to `--skip-bad`", "give both, or neither"});
  }
  const Session session = open_fleet(context);
  auto read = facts_in(context, name, told);
  if (read.unreadable) throw service::Failure(service::FailureKind::bad_data, std::move(read.diagnostics));
  if (arguments.has("history")) service::take_as_history(read);
  const fs::path rejects =
      skip_bad ? (context.world.folder / rejects_file(arguments, name)).lexically_normal() : fs::path{};
  auto record = open_record(context, session.folder, service::Access::write);

  const std::string origin = "import " + fs::path(shown_name(name)).filename().string();
  auto request = take_entry_of_file(read, origin, session.today, session.day_is_given, skip_bad);
  request.before_leaving_out = [&] { insist_on_new(rejects); };
  const bool dry_run = arguments.has("dry-run");
  Written written = write(context, session, record, request, understood(read, told, dry_run));
  const service::Entered& entered = written.entered;
  const std::size_t refused = read.rejected.size() + entered.refused_rows.size();
  written.left_out = refused;
  if (refused > 0 && !dry_run) {
    // After the commit: until this is written, the file that was imported holds the same rows.
    write_new(rejects, service::rejects_of(read, entered.refused_rows),
              "the good rows are stored; import the file again with --skip-bad --rejects FILE for the bad ones");
    written.rejects = rejects.string();
  }
  context.also = entered.refused;

  if (written.what.size() == 1 && entered.added.size() > 1) written.what.clear();  // the count follows
  const auto facts = static_cast<std::int64_t>(entered.added.size());
  written.what.insert(written.what.begin(),
                      fmt::format("{} new, {} already there, {} refused", service::counted(facts, "fact", "facts"),
                                  entered.already_there, refused));
  if (refused > 0) {
    written.next.push_back(dry_run ? fmt::format("Without --dry-run the bad rows go to {}", rejects.string())
                                   : fmt::format("The bad rows are in {}. Mend them there, then: {} import {}{}",
                                                 rejects.string(), context.look.command, shell_word(rejects.string()),
                                                 // Those that told how they are written may be stored, and the others
                                                 // alone would leave it open.
                                                 dialect_options(read.understood.dialect)));
  }
  tell(context, written);
  return 0;
}

}  // namespace cli
