// What says, among words about what was seen, that a machine must not run; and listed signs with words behind them.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "service/told_signs.h"
#include "unit/cli/field.h"

using cli_test::as_of;
using cli_test::Field;
using cli_test::must;
using nlohmann::json;
using service::MustNotRun;
using service::stop_told;

namespace {

// The line is taken, and nobody may run its machine in silence: it is out of use, or that is asked for.
bool stops(Field& field, const std::string& text) {
  field.input = text;
  const int status = field.run(std::string("import --messages - --dry-run --format json") + as_of);
  const json answer = json::parse(field.out);
  bool out_of_use = false;
  for (const json& fact : answer["facts"]) out_of_use = out_of_use || fact["kind"] == "out-of-use";
  const json& line = answer["lines"][0];
  const bool asks = !line["asks"].empty() && status == 65 &&
                    line["asks"][0]["hint"].get<std::string>().find("out-of-use ") != std::string::npos;
  return line["fate"] == "taken" && out_of_use != asks;
}

}  // namespace

TEST_CASE("a machine that must not run is out of use where a clause says so and nothing else") {
  Field field;
  const std::string both = "sign pump 2026-06-15 fire; out-of-use pump 2026-06-15 fire";
  for (const char* text :
       {"fire, out of use", "fire - out of use", "fire: do not run", "fire (do not use)", "fire, dont drive",
        "fire; DO NOT RUN!!", "fire, don't use it", "fire, don\u2019t start it please", "fire, must not be used",
        "fire. Out-of-use.", "fire \u2014 out of use", "fire, it is out of use", "fire, so do not run it",
        "fire, not safe to run", "fire,out of use", "fire, out of use now"}) {
    CHECK_MESSAGE(field.taken(std::string("saw pump ") + text) == both, text);
    CHECK(field.answer["not_to_run"].size() == 1);
  }
  CHECK(field.taken("saw pump fire, out of use yesterday by M.T.") ==
        "sign pump 2026-06-14 fire by M.T.; out-of-use pump 2026-06-14 fire; by M.T.");
  CHECK(field.taken("saw pump do not run, fire inside") ==
        "sign pump 2026-06-15 fire inside; out-of-use pump 2026-06-15 fire inside");
  CHECK(field.taken("saw pump out of use") == "sign pump 2026-06-15 out of use; out-of-use pump 2026-06-15");
  CHECK(field.taken("saw pump fire --note out of use") ==
        "sign pump 2026-06-15 fire out of use; out-of-use pump 2026-06-15 fire; out of use");
  CHECK(field.taken("saw pump fire, do not ride, M.T.") ==
        "sign pump 2026-06-15 fire, M.T.; out-of-use pump 2026-06-15 fire, M.T.");
  CHECK(field.taken("saw loader long-pedal, do not drive") ==
        "sign loader 2026-06-15 long-pedal; out-of-use loader 2026-06-15 long-pedal");
  CHECK(field.taken("saw loader leak badly, do not drive") ==
        "sign loader 2026-06-15 leak badly; out-of-use loader 2026-06-15 leak badly");
  must(field, std::string("saw loader leak --on 2026-06-14") + as_of);
  CHECK(field.taken("looked loader leak by M.T. found worn: hose split, do not use") ==
        "looked-at loader 2026-06-15 leak worn M.T. hose split, do not use; "
        "out-of-use loader 2026-06-15 leak: hose split");
}

TEST_CASE("what may say that it must not run is taken and asked back beside it") {
  Field field;
  for (const char* text : {"boom crack do not run",
                           "wipers do not run",
                           "fire out of use",
                           "fire, do not run if wet",
                           "fire, out of use?",
                           "fire, out of use tomorrow",
                           "fire, unless greased, do not run",
                           "boss says, do not run",
                           "fire, unsafe",
                           "fire, not safe",
                           "fire, out of use - NOT",
                           "fire, out of use, fixed now",
                           "fire, not out of use",
                           "fire, nobody is to drive it",
                           "fire do not drvie",
                           "fire, out of ues",
                           "fire, do not opertae",
                           "fire, out off use",
                           "brand, nicht benutzen",
                           "Feuer, au\u00dfer Betrieb",
                           "feu, hors service",
                           "fuego, no usar",
                           "brann, ute av drift",
                           "ogie\u0144, nie u\u017cywa\u0107",
                           "fire, keep off",
                           "\"fire, do not run\"",
                           "\"a sign fell off: out of use\"",
                           "fire --note do not run if wet"}) {
    CHECK_MESSAGE(stops(field, std::string("saw pump ") + text), text);
  }
  field.lines("saw pump boom crack do not run\n", 65);
  CHECK(field.answer["facts"].size() == 1);  // it is not lost
  CHECK(field.says(
      "to keep it from being run send: out-of-use pump boom crack; where it may run, nothing more is needed"));
  // Sent, it asks no more; nor does the line that is pasted again.
  field.lines("saw pump boom crack do not run\nout-of-use pump boom crack\n", 0);
  CHECK(field.answer["lines"][0]["fate"] == "already-there");
  field.lines("saw pump-3 boom crack do not run\nout-of-use pump-3 boom crack\n", 0, " --dry-run");
  CHECK(field.answer["lines"][0]["asks"].empty());
  field.input = "saw pump-3 boom crack do not run\n";
  CHECK(field.run(std::string("import --messages - --dry-run") + as_of) == 65);
  CHECK(field.says("Not all taken: it may say that the machine must not run, and that is not taken"));
  CHECK(field.says("of 1 line not all is taken"));
}

TEST_CASE("that it stands until it is mended is certain, that it is to stand may be") {
  Field field;
  for (const char* text : {"fire, parked until mended", "fire, keep it parked until it is repaired",
                           "fire; left, stays parked till fixed", "fire, keep it off the road until mended",
                           "fire, it's parked until it's mended", "Fire - parked up until put right"}) {
    CHECK_MESSAGE(stop_told(text).says == MustNotRun::said, text);
  }
  CHECK(field.taken("saw pump fire, parked until mended") ==
        "sign pump 2026-06-15 fire; out-of-use pump 2026-06-15 fire");
  for (const char* text :
       {"fire, keep it parked", "fire keep it parked please", "fire, leave it parked", "fire, nobody runs it",
        "fire, no one starts it", "fire, off the road", "fire, it is off the road", "fire, parked until Friday",
        "fire, parked until mended if it rains", "fire, parked until mended, fixed now", "hose parked until mended",
        // German, Dutch, Danish, Norwegian, Swedish
        "Feuer, darf nicht laufen", "Feuer, darf nicht mehr laufen", "Feuer, nicht mehr fahren",
        "Feuer, darf so nicht gefahren werden", "Feuer, niemand f\u00e4hrt damit", "Feuer, nicht mehr benutzen",
        "brand, niet meer rijden", "brand, mag niet draaien", "brand, m\u00e5 ikke k\u00f8re",
        "brann, m\u00e5 ikke kj\u00f8res", "brand, f\u00e5r inte k\u00f6ras", "brand, ska inte startas",
        // French, Spanish, Portuguese, Italian, Romanian
        "feu, ne doit pas tourner", "feu, ne plus rouler", "feu, personne ne la conduit", "fuego, no se debe usar",
        "fuego, nadie lo arranca o usa", "fogo, n\u00e3o deve andar", "fogo, n\u00e3o ligue", "fuoco, non va usata",
        "fuoco, nessuno la usi", "foc, nu trebuie pornit",
        // Polish, Czech, Russian
        "ogie\u0144, nie wolno je\u017adzi\u0107", "ohe\u0148, nesm\u00ed jezdit",
        "\u043d\u0435\u043b\u044c\u0437\u044f \u0437\u0430\u0432\u043e\u0434\u0438\u0442\u044c"}) {
    CHECK_MESSAGE(stops(field, std::string("saw pump ") + text), text);
  }
}

TEST_CASE("other ways to say that it is left standing may say it") {
  for (const char* text :
       {"fire, it is grounded", "brakes gone, red tag on it", "hitch loose, parked it up", "park it until I come",
        "leaks badly, leave it where it is", "leave it off", "hot, shut it down", "it must not go out",
        "don't let anyone near it", "do not let anyone drive", "boom cracked, do not lift", "frame bent, don't load it",
        // German
        "Bremse weich, bleibt stehen", "bitte stehen lassen", "Lenkung gef\u00e4hrlich", "gefaehrliche Risse",
        "nicht fahrbereit", "nicht verkehrssicher", "nicht betriebssicher", "bitte nicht anlassen",
        "darf nicht auf die Stra\u00dfe", "darf nicht in Betrieb", "Finger weg",
        // French, Romanian, Italian, Finnish
        "usage interdit", "\u00e0 l'arr\u00eat", "\u00e0 l\u2019arr\u00eat", "nu folosi", "fermo macchina",
        "ei saa ajaa", "ei saa k\u00e4ytt\u00e4\u00e4"}) {
    CHECK_MESSAGE(stop_told(text).says == MustNotRun::may_be_said, text);
  }
  for (const char* text : {"ground strap loose",
                           "red lamp on",
                           "park lamp out",
                           "shuts down when hot",
                           "leave oil out overnight to check",
                           "does not lift",
                           "lifts slowly",
                           "load sensor dead",
                           "lets dust in",
                           "went out once",
                           "Wasser steht im Tank",
                           "Motor stehend laut",
                           "Finger klemmt",
                           "Fahrersitz nicht fest",
                           "Anlasser nicht fest",
                           "Stra\u00dfenlicht aus",
                           "ne s'arr\u00eate pas",
                           "bouton d'arr\u00eat dur",
                           "folosit mult",
                           "macchina sporca",
                           "ei lataa"}) {
    CHECK_MESSAGE(stop_told(text).says == MustNotRun::not_said, text);
  }
}

TEST_CASE("words like them that say nothing of running ask for nothing") {
  Field field;
  for (const char* text : {"smoke, keep it running",
                           "off road tyres worn",
                           "parked at the barn",
                           "left it parked in the yard",
                           "parking brake weak",
                           "road lights off",
                           "keep it topped up",
                           "stays hot",
                           "nobody knows the noise",
                           "no one heard it before",
                           "runs until warm then stops",
                           "idles until warm",
                           "mended last year and leaks",
                           "off side mirror gone",
                           "road wheel nut off",
                           "Motor l\u00e4uft nicht rund",
                           "l\u00e4uft nicht mehr rund",
                           "L\u00fcfter l\u00e4uft nicht mehr",
                           "Licht geht nicht",
                           "f\u00e4hrt nur langsam",
                           "darf nicht nass werden",
                           "verliert Wasser beim Fahren",
                           "start niet goed",
                           "rijdt niet recht",
                           "k\u00f8rer ikke j\u00e6vnt",
                           "startar inte",
                           "ne tourne pas rond",
                           "roule mal",
                           "no arranca bien",
                           "n\u00e3o liga \u00e0s vezes",
                           "non parte bene",
                           "non va bene",
                           "nu porneste usor",
                           "nie dzia\u0142a",
                           "nejede rovn\u011b"}) {
    CHECK_MESSAGE(stop_told(text).says == MustNotRun::not_said, text);
    CHECK_MESSAGE(field.taken(std::string("saw pump ") + text) == std::string("sign pump 2026-06-15 ") + text, text);
  }
}

TEST_CASE("what says nothing of running asks for nothing") {
  Field field;
  for (const char* text : {"smoke", "does not run", "will not start", "uses oil", "runs hot", "lights do not work",
                           "use of oil is high", "out of true", "never starts first time", "no drive belt",
                           "left light out", "runs out of fuel", "out of gas", "safety decal gone"}) {
    CHECK_MESSAGE(stop_told(text).says == MustNotRun::not_said, text);
    CHECK_MESSAGE(field.taken(std::string("saw pump ") + text) == std::string("sign pump 2026-06-15 ") + text, text);
  }
}

TEST_CASE("a line that is not taken and may say that it must not run is told how to say it") {
  Field field;
  for (const char* text : {"saw loader restriction=6.2 leak, do not drive", "done loader hoses, do not use it",
                           "loader leaking, out of use", "done loader brakes half done do not drive",
                           "looked loader leak, do not drive"}) {
    CHECK(field.refused(text) != "");
    const std::string hint = field.answer["lines"][0]["wrong"][0]["hint"];
    CHECK_MESSAGE(hint.find("out-of-use loader") != std::string::npos, text << ": " << hint);
  }
}

TEST_CASE("a listed sign with more said behind a mark is that sign, and the rest is its note") {
  Field field;
  const std::string pedal = "sign loader 2026-06-15 long-pedal ";
  for (const char* text : {"long-pedal, pulls left", "long-pedal: pulls left", "long-pedal (pulls left)",
                           "long-pedal - pulls left", "long pedal \u2014 pulls left", "Long-Pedal; pulls left",
                           "long-pedal. pulls left", "long-pedal,pulls left", "long-pedal! pulls left"}) {
    CHECK_MESSAGE(field.taken(std::string("saw loader ") + text) == pedal + "pulls left", text);
    CHECK(field.answer["not_to_run"].size() == 1);
    REQUIRE(field.run_words({"saw", "loader", text, "--dry-run", "--format", "json", "--as-of", "2026-06-15"}) == 0);
    const json typed = json::parse(field.out);
    CHECK_MESSAGE(typed["facts"][0]["name"] == "long-pedal", text);
    CHECK_MESSAGE(typed["facts"][0]["note"] == "pulls left", text);
  }
  CHECK(field.taken("saw loader long-pedal (left) by M.T. yesterday") ==
        "sign loader 2026-06-14 long-pedal left; by M.T.");
  CHECK(field.taken("saw loader long-pedal, not stopping") == pedal + "not stopping");
  CHECK(field.taken("saw loader leak (rear), long-pedal") ==
        "sign loader 2026-06-15 leak rear; sign loader 2026-06-15 long-pedal");
  // What stands before it is something else, and what holds the name of another sign is no note.
  CHECK(field.taken("saw loader tyre flat, long-pedal") ==
        "sign loader 2026-06-15 tyre flat; sign loader 2026-06-15 long-pedal");
  CHECK(field.taken("saw loader leak, long-pedal and a hum") ==
        "sign loader 2026-06-15 leak; sign loader 2026-06-15 long-pedal and a hum");
  CHECK(field.answer["lines"][0]["near"]["command"] == "whichever saw loader long-pedal");
  // What may take it back leaves all of it in its own words.
  for (const char* text : {"long-pedal, fixed now", "long-pedal (fixed)", "long-pedal: none",
                           "long-pedal - not any more", "no more, long-pedal"}) {
    CHECK_MESSAGE(field.taken(std::string("saw loader ") + text) == std::string("sign loader 2026-06-15 ") + text,
                  text);
    CHECK(field.answer["lines"][0]["near"]["name"] == "long-pedal");
  }
}

TEST_CASE("words behind a listed sign may speak against what clears something, as any own words") {
  Field field;
  CHECK(field.lines("saw loader leak, the filter is not in\ndone loader filter\n", 65,
                    " --dry-run")[1]["wrong"][0]["code"] == "own-words-beside");
  CHECK(field.says("in its own words `the filter is not in`"));
  // A look at that very sign, behind it, is an answer to them.
  CHECK(field.lines("saw loader leak: at the rear\nlooked loader leak found good\n", 0,
                    " --dry-run")[1]["clears"][0]["sign"] == "leak");
}

TEST_CASE("a sign that is typed with words that it must not run is taken as both, or says what to type") {
  Field field;
  CHECK(field.run("saw pump fire, out of use --dry-run --format json --as-of 2026-06-15") == 0);
  const json both = json::parse(field.out);
  REQUIRE(both["facts"].size() == 2);
  CHECK(both["facts"][1]["kind"] == "out-of-use");
  CHECK(both["facts"][1]["note"] == "fire");
  CHECK(field.run("saw pump boom crack do not run --dry-run --as-of 2026-06-15") == 0);
  CHECK(field.says("To keep it from being run: whichever out-of-use pump --note WHY"));
  CHECK(field.run("saw pump smoke --dry-run --as-of 2026-06-15") == 0);
  CHECK_FALSE(field.says("keep it from being run"));
}
