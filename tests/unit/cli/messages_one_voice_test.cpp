// What clears something is taken only where the whole of a paste speaks with one voice.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/voices.h"

using cli_test::as_of;
using cli_test::at;
using cli_test::Field;
using cli_test::must;
using cli_test::Voices;
using nlohmann::json;

namespace {

const std::string good = "looked loader leak by M.T. found good";
const std::string done = "done loader brakes by M.T.";

}  // namespace

TEST_CASE("beside a line that is not taken what clears something is asked back") {
  Voices field;
  const std::string back = "untaken-beside";
  CHECK(field.fates(at("07:00", "M.T.: " + good) + "no sorry it still drips\n") == back + " refused");
  CHECK(field.says("line 2 is not taken"));
  CHECK(field.has_command(0));
  for (const char* below : {"NOT", "when the pads come"}) {
    CHECK_MESSAGE(field.fates(done + '\n' + below + '\n') == back + " refused", below);
  }
  for (const char* above : {"still to do:", "not", "Shall I send", "Forwarded:"}) {
    const std::string all = field.fates(std::string(above) + '\n' + done + " 15.06.2026\n");
    CHECK_MESSAGE(all.ends_with(' ' + back), above << ": " << all);
  }
  // Of the same sender however far, written as he is; of nobody; of anybody right beside it.
  CHECK(field.fates(at("07:00", "Anna: " + good) + at("07:02", "Anna: pump 20") + at("07:05", "anna: no, it drips")) ==
        back + " taken refused");
  CHECK(field.fates(at("06:00", "Anna: sorry") + at("06:30", "Anna: pump 20") + at("07:00", "Anna: " + good)) ==
        "refused taken " + back);
  CHECK(field.fates(at("07:00", "Anna: " + good) + at("07:02", "Ola: pump 20") + at("07:05", "no, it drips")) ==
        back + " taken refused");
  CHECK(field.fates(at("07:00", good) + at("07:02", "Ola: pump 20") + at("07:05", "Ola: no, it drips")) ==
        back + " taken refused");
  CHECK(field.fates(at("07:00", "Anna: " + good) + at("07:05", "Ola: no he did not")) == back + " refused");
  CHECK(field.fates(at("07:00", "Anna: " + good) + "Ola, [15.06.2026, 07:05]\nno he did not\n") ==
        back + " heading refused");
  // Beside it by when it was sent, or by where it stands.
  CHECK(field.fates(at("07:05", "Ola: no she did not") + at("09:00", "Ola: pump 20") + at("07:00", "Anna: " + good)) ==
        "refused taken " + back);
  // Nor is read what stands where the sender does.
  CHECK(field.fates(at("07:00", "Ola: " + good) + at("07:05", "sorry not true:")) == back + " heading");
  CHECK(field.fates(at("07:00", "Ola: " + good) + at("07:05", "sorry not true: loader 1510")) == back + " taken");
  // Another's further off may be anything.
  CHECK(field.fates(at("07:00", "Anna: " + good) + at("07:02", "Anna: pump 20") + at("07:05", "Ola: thanks")) ==
        "taken taken refused");
  // A line that the judge refuses, and one that says what such a line says.
  CHECK(field.fates("loader 1499\n" + done + '\n') == "refused " + back);
  CHECK(field.fates(at("07:00", "A: loader 1499") + at("07:01", "B: loader 1499") + done + '\n') ==
        "refused refused " + back);
  // What it may be about is not told with a command: the other line may tell of a sign.
  CHECK(field.fates(good + "\nloader leaks like hell\n") == back + " refused");
  CHECK_FALSE(field.has_command(0));
  // What clears nothing is taken all the same, and what is asked back for others asks back nothing further.
  CHECK(field.fates("thanks\nloader 1511.4\nsaw loader long-pedal\nlooked loader leak found worn: split\n"
                    "out-of-use pump hot\n") == "refused taken taken taken taken");
  CHECK(field.fates(at("07:00", "Ola: " + done) + at("07:02", "Ola: pump 20") + at("07:03", "Anna: done pump gland") +
                    at("07:04", "Ola: pump 21") + at("07:05", "Ola: thanks")) == back + " taken taken taken refused");
}

TEST_CASE("beside a sign in its own words, or one of later, what clears something is asked back") {
  Voices field;
  for (const char* said : {"leaks again", "still leaking", "brakes not done"}) {
    const std::string saw = std::string("saw loader ") + said;
    CHECK(field.fates(at("07:00", "A: " + good) + at("07:01", "A: pump 20") + at("07:05", "B: " + saw)) ==
          "own-words-beside taken taken");
    CHECK_FALSE(field.has_command(0));
    CHECK(field.fates(at("07:05", "A: " + done) + at("07:01", "A: pump 20") + at("07:00", "B: " + saw)) ==
          "own-words-beside taken taken");
    CHECK(field.has_command(0));
  }
  CHECK(field.fates(at("07:00", "A: " + done) + at("07:05", "B: out-of-use loader brakes pull")) ==
        "own-words-beside taken");
  CHECK(field.fates(at("07:00", "A: " + done) + at("07:05", "B: saw pump rattles")) == "taken taken");
  // The very words that the look answers are no others.
  CHECK(field.fates(at("07:00", "A: saw loader knocking") + at("09:00", "A: looked loader knocking found good")) ==
        "taken taken");
  CHECK(field.fates(at("09:00", "A: saw loader knocking") + at("07:00", "A: looked loader knocking found good")) ==
        "taken own-words-beside");

  CHECK(field.fates(at("07:00", "A: " + good) + at("07:05", "A: saw loader leak")) == "seen-after taken");
  CHECK(field.says("`leak` of loader was seen after it, at 07:05"));
  CHECK_FALSE(field.has_command(0));
  CHECK(field.fates(at("07:00", "A: done loader hoses") + at("07:05", "A: saw loader leak")) == "seen-after taken");
  CHECK(field.fates(good + "\nsaw loader leak 2026-06-15\n") == "seen-after taken");
  CHECK(field.says("`leak` of loader was seen after it, in line 2"));
  CHECK(field.fates(at("07:00", "A: " + done) + at("07:05", "A: saw loader leak")) == "seen-after taken");
  CHECK(field.has_command(0));  // which does not answer it
  CHECK(field.fates("14.06.2026\n" + good + "\n15.06.2026\nsaw loader leak\n") == "heading seen-after heading taken");
  CHECK(field.says("`leak` of loader was seen after it, on 2026-06-15"));
  CHECK(field.fates(at("07:00", "A: " + good) + at("07:05", "A: looked loader leak found worn: split")) ==
        "seen-after taken");
  // In no known order.
  CHECK(field.fates("15.06.2026\nsaw loader leak\n[15.06.2026, 07:00] A: " + good + '\n') ==
        "heading taken which-came-first");
  CHECK(field.fates(at("07:00", "A: saw loader leak") + at("07:00", "B: " + good)) == "taken which-came-first");
  CHECK_FALSE(field.has_command(1));
  // Before it for certain.
  CHECK(field.fates(at("07:05", "A: " + good) + at("07:00", "A: saw loader leak")) == "taken taken");
  CHECK(field.fates("saw loader leak 2026-06-15\n" + good + '\n') == "taken taken");
  CHECK(field.fates("saw loader leak 2026-06-14\n" + good + '\n') == "taken taken");
  // That the record has the sign of later changes nothing.
  must(field, std::string("saw loader leak") + as_of);
  CHECK(field.fates(at("07:00", "A: " + good) + at("07:05", "A: saw loader leak")) == "seen-after already-there");
  CHECK_FALSE(field.has_command(0));
  // Nor is a command told for words that are asked back beside it.
  CHECK(field.fates(at("07:00", "A: " + good + " I think") + at("07:05", "A: saw loader leak")) ==
        "refused already-there");
  CHECK_FALSE(field.has_command(0));
  CHECK(field.fates(at("07:00", "A: " + good + " I think")) == "refused");
  CHECK_FALSE(field.has_command(0));
  CHECK(field.fates(at("07:00", "A: done loader brakes by M.T. note half")) == "refused");
  CHECK(field.has_command(0));
}

TEST_CASE("a time that runs backwards is of no known day") {
  Voices field;
  const std::string saw = "saw loader long-pedal";
  for (const std::string& text :
       {"[12.06.2026, 20:00] M.T.: " + good + "\n[06:10] M.T.: " + saw + '\n',
        "[12.06.2026, 20:00] M.T.: " + good + "\n06:10\n" + saw + '\n',
        "Yesterday\n[20:00] M.T.: " + good + "\n[06:10] M.T.: " + saw + '\n',
        "[12.06.2026, 20:00] M.T.: done loader hoses\n[06:10] M.T.: pump 20\n[06:20] M.T.: " + saw + '\n'}) {
    const std::string all = field.fates(text);
    CHECK_MESSAGE(all.ends_with("refused"), text << all);
    CHECK_MESSAGE(all.find("untaken-beside") != std::string::npos, text << all);
    CHECK(field.answer["lines"].back()["wrong"][0]["code"] == "bad-day");
    CHECK(field.says("is earlier than"));
  }
  CHECK(field.fates("12.06.2026\n[06:10] A: pump 20\n[20:00] A: " + saw + '\n') == "heading taken taken");
  CHECK(field.fates("[06:10] A: pump 20\n[06:10] A: " + saw + "\n[05:00] A: north 20\n", " --on 2026-06-12") ==
        "taken taken refused");
  // A day begins anew.
  CHECK(field.fates("[12.06.2026, 20:00] A: pump 20\n[06:10] A: pump 21\n13.06.2026\n[06:20] A: pump 22\n") ==
        "taken refused heading taken");
  CHECK(field.answer["lines"][3]["on"] == "2026-06-13");
}

TEST_CASE("where its day is not certain, what clears something is asked back") {
  Voices field;
  const std::string below = "[15.06.2026, 07:00] A: pump 20\n";
  CHECK(field.fates(good + '\n' + below) == "day-not-certain taken");
  CHECK_FALSE(field.has_command(0));
  CHECK(field.fates(good + " yesterday\n" + below) == "day-not-certain taken");
  CHECK(field.fates(good + " 2026-06-14\n" + below) == "taken taken");
  CHECK(field.fates(good + '\n' + below, " --on 2026-06-14") == "taken taken");
  CHECK(field.fates("loader 1511.4\nsaw loader long-pedal\n" + below) == "taken taken taken");
  // A stamp wins over a day that is told for all.
  CHECK(field.fates("[05.06.2026, 19:40] M.T.: " + good + '\n', " --on 2026-06-14") == "taken");
  CHECK(field.answer["lines"][0]["on"] == "2026-06-05");
  CHECK(field.answer["lines"][0]["clears"].empty());
}

TEST_CASE("where a sender stands only a plain name clears anything") {
  Voices field;
  for (const char* text :
       {"14.06.2026 - still to do: ", "14.06.2026 19:40 - NOT: ", "[14.06.2026, 19:40] A.F. asks: ",
        "[14.06.2026, 19:40] A.F. (forwarded from M.T.): ", "14.06.2026, 19:40 - Planned for tomorrow: ",
        "14.06.2026, 19:40 - M.T. replied to A.F.: ", "Today - to do: ", "14.06.2026 19:40 not done yet:\n",
        "Today 19:40 to do:\n", "14.06.2026 19:40 plan:\n",
        "Not done by A.F., [14.06.2026 19:40]: ", "14.06.2026 19:40 - Tomorrow: ", "14.06.2026 19:40 - \"Anna\": ",
        "14.06.2026 19:40 - Anna?: ", "14.06.2026 19:40 - One Two Three Four: ", "14.06.2026 19:40 - 3 of 4: "}) {
    CHECK_MESSAGE(field.fates(std::string(text) + good + '\n').ends_with("no-plain-sender"), text);
    const std::string what = text;
    const bool not_yet = what.find("do:") != std::string::npos || what.find("yet") != std::string::npos ||
                         what.find("plan") != std::string::npos || what.find("Plan") != std::string::npos ||
                         what.find("Tomorrow") != std::string::npos;
    CHECK_MESSAGE(field.fates(what + "loader 1511.4\n").ends_with(not_yet ? "refused" : "taken"), text);
  }
  for (const char* name :
       {"A.F.", "M.T.", "Anna", "Ola N.", "Anna Vik", "O'Neill", "Jean-Luc", "Dr. Vik", "Åse Øye", "Жанна", "Ντίνα",
        "田中", "علي", "+44 7700 900123", "~ Anna", "Anna 🚜", "Mary Ann Ray", "K"}) {
    CHECK_MESSAGE(field.fates(std::string("[14.06.2026, 19:40] ") + name + ": " + good + '\n') == "taken", name);
  }
  // Words that say that it is not so, or not yet, however they are written; above the lines as well.
  for (const char* word :
       {"Planned", "Plan",     "Todo", "To do",      "To-do",        "To Do", "Tomorrow",   "Next week", "Next Week",
        "Should",  "Could",    "Not",  "Not yet",    "Not Yet",      "Don't", "Don\u2019t", "Cancelled", "Old",
        "Example", "Reminder", "Ask",  "Asked Anna", "Anna Planned", "Maybe", "If"}) {
    for (const char* behind : {": ", ":\n"}) {
      const std::string text = std::string("[14.06.2026, 19:40] ") + word + behind;
      CHECK_MESSAGE(field.fates(text + "done loader engine-oil 1511.4 by M.T.\n").ends_with("no-plain-sender"), text);
      CHECK_MESSAGE(field.fates(text + "saw loader brakes pull\n").ends_with("taken"), text);
    }
  }
  field.input = "[14.06.2026, 19:40] Planned: done loader engine-oil 1511.4 by M.T.\n";
  CHECK(field.run(std::string("import --messages -") + as_of) == 65);
  CHECK(field.says("`Planned` stands before it, which is no plain name"));
  // Somebody whom the record knows has whatever name.
  const std::string known = "[14.06.2026, 19:40] anna de vries: " + good + '\n';
  CHECK(field.fates(known) == "no-plain-sender");
  REQUIRE(field.run_words({"done", "pump", "gland", "--by", "Anna de Vries", "--as-of", "2026-06-15"}) == 0);
  CHECK(field.fates(known) == "taken");
}

TEST_CASE("a value that heals by itself is asked back with both") {
  Voices field;
  field.write("schedules/tractor.yaml", R"(schedule: tractor
meters: {engine: {unit: h}}
tasks:
  air: {do: Air, every: {hours: 500, measured: {restriction: {above: 6, unit: kPa}}}}
  tyre: {do: Tyre, every: {months: 12, measured: {tread: {below: 15, unit: mm}}}, positions: [left, right], safety: true}
  hoses: {do: Renew worn hoses, every: {years: 6, signs: [leak]}}
)");
  must(field, "saw loader tread=15 --position left --on 2026-06-09 --as-of 2026-06-15");
  must(field, "saw loader tread=40 --position right --on 2026-06-09 --as-of 2026-06-15");
  const auto code = [&](const std::string& text, std::size_t line) {
    field.fates(text);
    const json& is = field.answer["lines"][line];
    return is["wrong"].empty() ? is["fate"].get<std::string>() : is["wrong"][0]["code"].get<std::string>();
  };
  CHECK(code("saw loader tread=115 left", 0) == "value-heals");
  CHECK(field.says("tread@left was 15 mm on 2026-06-09, limit 15 mm; 115 mm would take tyre@left off the list"));
  CHECK(field.says("done loader tyre@left by WHO"));
  CHECK(code("saw loader tread=18 all", 0) == "value-heals");
  CHECK(code("saw loader tread=12 left\nsaw loader tread=18 left\n", 0) == "taken");
  CHECK(code("saw loader tread=12 left\nsaw loader tread=18 left\n", 1) == "value-heals");
  CHECK(field.says("tread@left was 12 mm on 2026-06-15"));
  // Neither a value that wears on, nor one of a place where nothing was worn, nor one of before.
  CHECK(code("saw loader tread=14 left", 0) == "taken");
  CHECK(code("saw loader tread=60 right", 0) == "taken");
  CHECK(code("saw loader tread=20 left 2026-06-01", 0) == "taken");
  // Where it was renewed before that, it is as new; not where that is refused itself.
  CHECK(code("done loader tyre left by M.T.\nsaw loader tread=60 left\n", 1) == "taken");
  CHECK(code("saw loader tread=60 left\ndone loader tyre left by M.T.\n", 0) == "taken");
  CHECK(code("done loader tyre left by M.T.\nsaw loader tread=60 left\nNOT\n", 1) == "value-heals");

  // Of what may wait it is taken, as whatever else clears something.
  must(field, "saw loader restriction=7 --on 2026-06-09 --as-of 2026-06-15");
  CHECK(field.fates("saw loader restriction=2") == "taken");
  CHECK(field.fates("saw loader restriction=2\nNOT\n") == "untaken-beside refused");
  CHECK(field.hint(0).ends_with("whichever saw loader restriction=2 --unit kPa --on 2026-06-15"));
  CHECK(field.fates("saw loader restriction=8\nNOT\n") == "taken refused");

  // Typed it is stored, and said there and by check.
  must(field, std::string("saw loader tread=18 --position left") + as_of);
  CHECK(field.says("tread@left of loader was 15 mm on 2026-06-09, limit 15 mm; now 18 mm"));
  CHECK(field.says("nothing says that it was renewed"));
  CHECK(field.says("If it was: whichever done loader tyre@left --on DAY"));
  const auto remarked = [&] {
    must(field, std::string("check") + as_of);
    return field.says("tread@left was 15 mm on 2026-06-09, limit 15 mm, and nothing says that it was renewed");
  };
  CHECK(remarked());
  must(field, std::string("saw loader tread=18 --position right --format json") + as_of);
  CHECK(json::parse(field.out)["values_healed"].empty());
  must(field, "done loader tyre@left --by M.T. --on 2026-06-12 --as-of 2026-06-15");
  CHECK_FALSE(remarked());
}

TEST_CASE("a service ends the newest value, and names that") {
  Field field;
  must(field, "saw loader tread=15 --position front-left --on 2026-06-09 --as-of 2026-06-15");
  field.input =
      "kind,machine,on,name,value,unit,position,task\nmeasurement,loader,2026-06-15,tread,12,mm,front-left,\n"
      "service,loader,2026-06-15,,,,front-left,tyre\n";
  must(field, std::string("import - --dry-run --format json") + as_of);
  field.answer = json::parse(field.out);
  REQUIRE(field.answer["values_ended"].size() == 1);
  CHECK(field.answer["values_ended"][0]["value"] == 12);
  CHECK(field.answer["values_ended"][0]["on"] == "2026-06-15");
  const std::string again = field.answer["values_ended"][0]["again"];
  CHECK(again.find("tread=12") != std::string::npos);
}

TEST_CASE("what is no stamp leaves the lines below it their day") {
  Voices field;
  for (const char* text : {"sorry loader 2081", "> looked loader leak by M.T. found good",
                           "put-off loader engine-oil until 2026-09-20 after harvest", "sorry pump-3: tomorrow",
                           "the Loader tractor since 05.06.2026"}) {
    CHECK_MESSAGE(
        field.fates(std::string("[13.06.2026, 07:00] A: pump 20\n") + text + "\npump-3 20\n") == "taken refused taken",
        text);
    CHECK(field.answer["lines"][2]["on"] == "2026-06-13");
  }
  field.fates("put-off loader engine-oil until 2026-09-20 after harvest");
  CHECK(field.says("`put-off` is not taken from messages"));
  // A day before the name may say when it was sent.
  CHECK(field.fates("[13.06.2026, 07:00] A: pump 20\nKari (14 June, 18:05): loader 1510\npump-3 20\n") ==
        "taken refused refused");
  for (const char* text : {"Oil came 05.06.2026", "Forwarded:", "still to do:"}) {
    CHECK_MESSAGE(field.fates(std::string(text) + "\npump 20\n") == "refused refused", text);
    CHECK(field.hint(0).starts_with("if this is no stamp, take it out; else "));
  }
  field.fates("14-06-26 19:40 M.T.: pump 20");
  CHECK(field.says("the stamp `14-06-26 19:40` does not say which of its numbers is the year"));
}

TEST_CASE("a cure keeps what was said, and names who is missing") {
  Field field;
  field.lines("done loader brakes checked by M.T. 1510 2026-06-14", 65, " --dry-run");
  CHECK(field.says("say so without that word: done loader brakes at 1510 2026-06-14 by M.T."));
  CHECK(field.says("saw loader SIGN, or looked loader SIGN found good"));
  must(field, std::string("saw loader long-pedal badly") + as_of);
  field.lines("looked loader long-pedal badly found good", 65, " --dry-run");
  CHECK(field.says("whichever looked loader 'long-pedal badly' --on 2026-06-15 --by WHO --found good"));
  CHECK(field.run_words({"looked", "loader", "long-pedal badly", "--note", "ok", "--as-of", "2026-06-15"}) == 64);
  CHECK(field.complains("--by WHO --found good"));
}

TEST_CASE("out of use the same a day later, or denied, is asked back") {
  Field field;
  const std::string said = "out-of-use loader";
  field.input = said;
  CHECK(field.run("import --messages - --as-of 2026-06-13") == 0);
  must(field, "back loader --as-of 2026-06-14");
  CHECK(field.refused(said) == "told-lately");
  CHECK(field.says("out-of-use loader 2026-06-15"));
  CHECK(field.taken(said + " 2026-06-15") == "out-of-use loader 2026-06-15");
  for (const char* words : {"not any more", "no", "No!", "no longer", "never", "no more"}) {
    CHECK_MESSAGE(field.refused(said + ' ' + words) == "out-of-use-or-not", words);
  }
  CHECK(field.taken(said + " no brakes") == "out-of-use loader 2026-06-15 no brakes");
  CHECK(field.taken(said + " brakes not working") == "out-of-use loader 2026-06-15 brakes not working");
}

TEST_CASE("a mark is no part of a word of a sign") {
  Field field;
  for (const char* said : {"the long-pedal, left wheel hot", "hot long-pedal; left wheel", "long-pedal: fixed",
                           "a [long-pedal] again", "\"long-pedal\" they say", "*long-pedal* bad",
                           "the long pedal\u2014hot", "hot/long-pedal/left", "hot long-pedal,left"}) {
    field.taken(std::string("saw loader ") + said);
    CHECK_MESSAGE(field.answer["lines"][0]["near"]["name"] == "long-pedal", said);
  }
  REQUIRE(field.run_words({"saw", "loader", "the long-pedal, left hot", "--as-of", "2026-06-15"}) == 0);
  CHECK(field.says("If `long-pedal` was meant"));
  CHECK(field.says("--by WHO --found HOW"));
  CHECK(field.refused("looked loader the long-pedal, left hot found good 2026-06-15") == "which-came-first");
  CHECK(field.run_words({"looked", "loader", "the long-pedal, left hot", "--note", "ok", "--as-of", "2026-06-15"}) ==
        64);
}

TEST_CASE("what another says of the same machine or work is minded however far off, and nothing else of his") {
  Voices field;
  const std::string back = "untaken-beside";
  const auto far = [&](const std::string& said, const std::string& did = done) {
    return field.fates(at("07:00", "Anna: " + did) + at("07:02", "Ola: pump 20") + at("07:05", "Ola: " + said));
  };
  // The machine, by its key or the words of its name, in any order, number or part, and with a slip.
  for (const char* said :
       {"loader not to be run, brakes are not done", "the loader's had it", "tractor loader stands at the gate",
        "both loaders stand at the gate", "the laoder stands", "that tractor is a wreck"}) {
    CHECK_MESSAGE(far(said) == back + " taken refused", said);
    CHECK_FALSE(field.has_command(0));
  }
  // The work or what was seen, of whatever machine.
  for (const char* said : {"I drove with those brakes", "brake fluid on the floor", "long pedal this morning"}) {
    CHECK_MESSAGE(far(said) == back + " taken refused", said);
  }
  CHECK(far("the leak is on the left side", good) == back + " taken refused");
  CHECK(far("the leak is on the left side", "done loader hoses") == back + " taken refused");
  // Of no machine, that something is not so.
  for (const char* said : {"that isn't so", "nobody was there", "still to be seen to", "did he? no", "without me"}) {
    CHECK_MESSAGE(far(said) == back + " taken refused", said);
    CHECK(field.has_command(0));
  }
  CHECK(far("lunch at twelve", good) == "taken taken refused");
  // Right beside it whatever may mean it; not what names another machine, nor plain talk.
  const auto beside = [&](const std::string& said) {
    return field.fates(at("07:00", "Anna: done loader filter by M.T.") + at("07:05", "Ola: " + said));
  };
  for (const char* said : {"lunch at twelve", "ok?", "ok \u274c", "he told me so"}) {
    CHECK_MESSAGE(beside(said) == back + " refused", said);
  }
  for (const char* said : {"ok, thanks", "Thanks!", "thank you \U0001F44D", "got it", "the combine still leaks",
                           "combine: belt is not done", "pump 3 is not to be run", "old pump drips, still"}) {
    CHECK_MESSAGE(beside(said) == "taken refused", said);
  }
  // Of one whose name is part of another's, the longer one is meant.
  CHECK(field.fates(at("07:00", "Anna: done pump gland") + at("07:05", "Ola: pump 3 drips")) == "taken refused");
  CHECK(field.fates(at("07:00", "Anna: done pump-3 gland") + at("07:05", "Ola: the pump drips")) == back + " refused");
  // Of the same sender it is as it was: whatever it be.
  CHECK(field.fates(at("07:00", "Ola: " + done) + at("07:05", "Ola: ok, thanks")) == back + " refused");
  // Nor does anybody lead from there to a service.
  for (const char* said : {"hose of the loader still leaks", "dine on the loader not run",
                           "loader not to be run, brakes are not done", "loader brakes are not done"}) {
    field.fates(at("07:05", std::string("Ola: ") + said));
    CHECK_MESSAGE(field.hint(0).find("done MACHINE") == std::string::npos, field.hint(0));
    CHECK_MESSAGE(field.hint(0).find("`done`") == std::string::npos, field.hint(0));
    CHECK_MESSAGE(field.hint(0).find("done loader") == std::string::npos, field.hint(0));
  }
}

TEST_CASE("a check that is done at a value at its limit is asked back") {
  Voices field;
  const auto code = [&](const std::string& text, std::size_t line) {
    field.fates(text);
    const json& is = field.answer["lines"][line];
    return is["wrong"].empty() ? is["fate"].get<std::string>() : is["wrong"][0]["code"].get<std::string>();
  };
  const std::string tyre = "done loader tyre front-left by M.T.\n";
  CHECK(code("saw loader tread=14 front-left\n" + tyre, 1) == "value-ends");
  CHECK(field.says("tread@front-left was 14 mm on 2026-06-15, limit 15 mm"));
  CHECK(field.says("renewed or put right, or only looked at"));
  CHECK(field.hint(1).ends_with("by the command: whichever done loader tyre@front-left --on 2026-06-15 --by M.T."));
  CHECK(code("saw loader tread=15 all\n" + tyre, 1) == "value-ends");
  // Neither within the limit, nor elsewhere, nor where it was measured anew behind it, nor before the value.
  CHECK(code("saw loader tread=16 front-left\n" + tyre, 1) == "taken");
  CHECK(code("saw loader tread=14 front-right\n" + tyre, 1) == "taken");
  CHECK(code("saw loader tread=14 front-left\n" + tyre + "saw loader tread=60 front-left\n", 1) == "taken");
  CHECK(code("saw loader tread=14 front-left\n" + tyre + "saw loader tread=60 front-left\n", 2) == "taken");
  CHECK(code(tyre + "saw loader tread=14 front-left\n", 0) == "taken");
  // What puts something in has renewed it.
  const auto filter = [&](const std::string& parts) {
    field.write(
        "schedules/tractor.yaml",
        "schedule: tractor\nmeters: {engine: {unit: h}}\ntasks:\n"
        "  air: {do: Air, every: {hours: 500, measured: {restriction: {above: 6, unit: kPa}}}" +
            parts +
            "}\n"
            "  brakes: {do: Brakes, every: {months: 12, measured: {lining: {below: 3, unit: mm}}}, safety: true}\n"
            "  service: {do: All, every: {hours: 1000}, covers: [brakes]}\n"
            "  hoses: {do: Renew worn hoses, every: {years: 6, signs: [leak]}}\n");
    return code("saw loader restriction=7\ndone loader air\n", 1);
  };
  CHECK(filter("") == "value-ends");
  CHECK(field.says("where it was only looked at, that value says it all"));
  CHECK(filter(", parts: {air-element: 1}") == "taken");
  // By what includes it too; and how a check that never waits was found says what it is.
  CHECK(code("saw loader lining=2\ndone loader service\n", 1) == "value-ends");
  CHECK(code("saw loader lining=2\ndone loader brakes\n", 1) == "value-ends");
  CHECK(field.says("done loader brakes found worn, or found failed"));
  CHECK(code("saw loader lining=2\ndone loader brakes found worn by M.T.\n", 1) == "taken");
  // A value of the book; typed, the check is a remark until it is measured again.
  must(field, std::string("saw loader lining=2") + as_of);
  CHECK(code("done loader brakes by M.T.", 0) == "value-ends");
  const auto remarked = [&] {
    must(field, std::string("check") + as_of);
    return field.says("lining was 2 mm on 2026-06-15, limit 3 mm, and counts no more");
  };
  CHECK_FALSE(remarked());
  must(field, std::string("done loader brakes --by M.T.") + as_of);
  CHECK(remarked());
  must(field, std::string("saw loader lining=9") + as_of);
  CHECK_FALSE(remarked());
}

TEST_CASE("what stands below a plan is asked back") {
  Voices field;
  const auto below = [&](const std::string& plan, const std::string& said) {
    return field.fates(at("07:00", "A.F.: " + plan) + said + '\n');
  };
  for (const char* plan : {"Planned for tomorrow:", "Still to do:", "tomorrow:", "Next week:", "what I will do:",
                           "for friday:", "not yet:", "Plan:"}) {
    CHECK_MESSAGE(below(plan, "loader 1511.4") == "refused refused", plan);
    CHECK_MESSAGE(field.says("may say that it is not so yet"), plan);
    CHECK_MESSAGE(below(plan, "saw loader long-pedal") == "refused taken", plan);
    CHECK_MESSAGE(below(plan, "out-of-use loader brakes pull") == "refused taken", plan);
  }
  for (const char* plan : {"Planned for tomorrow", "correction:", "from the yard:"}) {
    CHECK_MESSAGE(below(plan, "loader 1511.4") == "refused taken", plan);
  }
  // By the same sender on that day; not by others.
  CHECK(field.fates(at("07:00", "A.F.: Planned for tomorrow:") + at("07:01", "M.T.: pump 20") +
                    at("07:02", "A.F.: loader 1511.4")) == "refused taken refused");
  CHECK(field.fates("[14.06.2026, 19:00] A.F.: Planned for tomorrow:\n" + at("07:02", "A.F.: loader 1511.4")) ==
        "refused taken");
  CHECK(field.fates(at("07:00", "Planned for tomorrow:") + "loader 1511.4\n") == "heading refused");
}

TEST_CASE("out of use on a condition is asked back") {
  Field field;
  for (const char* words : {"if it still leaks", "unless somebody looks at it", "leaks, if I saw it right"}) {
    CHECK_MESSAGE(field.refused(std::string("out-of-use loader ") + words) == "not-certain", words);
  }
  CHECK(field.says("out-of-use loader WHY"));
  CHECK(field.taken("out-of-use loader leaks when cold") == "out-of-use loader 2026-06-15 leaks when cold");
}

TEST_CASE("what never waits is held by any later line that nobody understands, and is no plain talk") {
  Voices field;
  const std::string back = "untaken-beside";
  const auto then = [&](const std::string& said, const std::string& did) {
    return field.fates(at("07:00", "Anna: " + did) + at("07:02", "Ola: pump 20") + at("07:05", "Ola: " + said));
  };
  // In any language, of no machine or of another one, with what is harmless between.
  for (const char* said :
       {"noch nicht", "pas fait", "kein Wort wahr", "that is a lie", "nonsense", "wait for the parts first",
        "M.T. says it was the other one", "there is oil under the blue one", "pending", "\U0001F44E", "lunch at twelve",
        "it was the combine"}) {
    CHECK_MESSAGE(then(said, done) == back + " taken refused", said);
  }
  CHECK(field.fates(at("07:00", "Anna: " + done) + at("07:02", "Ola: ok") + at("07:05", "Ola: pending")) ==
        back + " refused refused");
  CHECK(field.fates(at("07:00", "Anna: " + done) + at("07:02", "Ola: ok") + at("07:05", "Per: \U0001F44E")) ==
        back + " refused refused");
  // By when it was sent, wherever it stands.
  CHECK(field.fates(at("07:05", "Ola: noch nicht") + at("07:02", "Ola: pump 20") + at("07:00", "Anna: " + done)) ==
        "refused taken " + back);
  // A look that answers a sign of such a task too.
  CHECK(field.fates("saw loader long-pedal 2026-06-11\n" +
                    at("07:00", "Anna: looked loader long-pedal by M.T. found good") + at("07:02", "Ola: pump 20") +
                    at("07:05", "Ola: noch nicht")) == "taken " + back + " taken refused");
  // Plain talk, what was sent before, and what may wait.
  for (const char* said : {"ok", "thanks", "Good morning", "\U0001F44D"}) {
    CHECK_MESSAGE(then(said, done) == "taken taken refused", said);
  }
  CHECK(field.fates(at("06:50", "Ola: lunch at twelve") + at("06:55", "Ola: pump 20") + at("07:00", "Anna: " + done)) ==
        "refused taken taken");
  CHECK(then("pas fait", "done loader filter by M.T.") == "taken taken refused");
}

TEST_CASE("a reading that takes something off the list is held as what clears anything is") {
  Voices field;
  const std::string back = "untaken-beside";
  must(field, std::string("done loader engine-oil --at 1320 --on 2026-01-05") + as_of);
  must(field, std::string("due loader") + as_of);
  REQUIRE(field.says("by estimate"));
  const auto then = [&](const std::string& reading, const std::string& who, const std::string& said) {
    return field.fates(at("07:00", "Anna: " + reading) + at("07:05", who + ": " + said));
  };
  for (const char* said : {"sorry, 1565", "not 1510 but 1565", "about 1565", "1542 I think", "laoder 1565", "thanks"}) {
    CHECK_MESSAGE(then("loader 1510", "Anna", said) == back + " refused", said);
  }
  for (const char* said : {"that loader value is wrong", "the reading is an old one", "no, it is not", "laoder 1565"}) {
    CHECK_MESSAGE(then("loader 1510", "Ola", said) == back + " refused", said);
  }
  CHECK(field.says("line 2 is not taken"));
  CHECK(then("loader 1510", "Ola", "ok, thanks") == "taken refused");
  CHECK(then("loader 1510", "Ola", "the combine still leaks") == "taken refused");
  // One that proves it, and one by which nothing comes due.
  CHECK(then("loader 1580", "Anna", "sorry, 1585") == "taken refused");
  CHECK(then("pump 20", "Anna", "sorry, 25") == "taken refused");
}

TEST_CASE("a reading that ends a doubt is held as what clears anything is") {
  Voices field;
  must(field, std::string("undo") + as_of);  // the reading of the pump
  for (int week = 0; week < 22; ++week) {
    const auto day = service::day_of(2026, 1, 5) + std::chrono::days{7 * week};
    must(field,
         "reading pump " + std::to_string(100 + 10 * week + week % 3) + ".5 --on " + service::to_text(day) + as_of);
  }
  must(field, std::string("reading pump 520 --on 2026-06-10") + as_of);
  REQUIRE(field.says("is hard to believe"));
  CHECK(field.fates(at("07:00", "Anna: pump 521") + at("07:05", "Anna: sorry, 321")) == "untaken-beside refused");
  CHECK(field.fates(at("07:00", "Anna: pump 521") + at("07:05", "Ola: ok, thanks")) == "taken refused");
}
