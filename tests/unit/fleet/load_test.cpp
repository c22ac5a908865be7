// A fleet folder on the disk: which files are taken, and what is said about those that cannot be.
#include <doctest/doctest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

#include "service/fleet.h"
#include "support/temporary_folder.h"
#include "unit/fleet/texts.h"

namespace {

namespace fs = std::filesystem;

class Folder : public test::TemporaryFolder {
 public:
  void write(std::string_view name, std::string_view text) const {
    fs::create_directories((path() / name).parent_path());
    std::ofstream(path() / name, std::ios::binary) << text;
  }
};

std::string names_of(const service::FleetFiles& files) {
  std::string names;
  for (const auto& [name, text] : files.texts) names += name + ' ';
  return names;
}

// `status code` of the failure.
std::string failure_of(const fs::path& folder) {
  try {
    service::load_fleet_files(folder);
  } catch (const service::Failure& failure) {
    return std::to_string(static_cast<int>(failure.kind())) + ' ' + failure.diagnostics().at(0).code;
  }
  return "none";
}

}  // namespace

TEST_CASE("the files of a fleet are taken, and others are left alone") {
  const Folder folder;
  folder.write("fleet.yaml", fleet_texts::one_machine);
  folder.write("register.csv", "machine,schedule\npump-2,pump\n");
  folder.write("schedules/pump.yaml", fleet_texts::one_task);
  folder.write("schedules/pump.yaml~", "an editor's copy");
  folder.write("schedules/.#pump.yaml", "an editor's lock");
  folder.write("schedules/README", "about these");
  folder.write("schedules/old/pump.yaml", "put away");
  folder.write("notes.yaml", "something else");
  const service::FleetFiles files = service::load_fleet_files(folder.path());
  CHECK(names_of(files) == "fleet.yaml register.csv schedules/pump.yaml ");
  CHECK(files.folder.string() == folder.path().string());
  CHECK(files.texts.at("fleet.yaml") == fleet_texts::one_machine);
  CHECK(service::read_fleet(files).machines.size() == 2);
}

TEST_CASE("a fleet needs neither a register nor schedules to be loaded") {
  const Folder folder;
  folder.write("fleet.yaml", "fleet: Test farm\n");
  CHECK(names_of(service::load_fleet_files(folder.path())) == "fleet.yaml ");
}

TEST_CASE("schedules with another suffix are loaded, to be complained about") {
  const Folder folder;
  folder.write("fleet.yaml", fleet_texts::one_machine);
  folder.write("schedules/pump.yml", fleet_texts::one_task);
  folder.write("schedules/Dryer.YAML", fleet_texts::one_task);
  service::FleetFiles files = service::load_fleet_files(folder.path());
  CHECK(names_of(files) == "fleet.yaml schedules/Dryer.YAML schedules/pump.yml ");
  CHECK(fleet_texts::codes_of(files) == "wrong-suffix wrong-suffix");
}

TEST_CASE("a folder without a fleet is not an empty fleet") {
  const Folder folder;
  CHECK(failure_of(folder.path()) == "66 no-fleet-file");
  CHECK(failure_of(folder.path() / "gone") == "66 no-such-folder");
  folder.write("file", "text");
  CHECK(failure_of(folder.path() / "file") == "66 no-such-folder");
  CHECK(failure_of(folder.path() / "file" / "below") == "66 no-such-folder");
}

TEST_CASE("a fleet.yml is pointed at") {
  const Folder folder;
  folder.write("fleet.yml", fleet_texts::one_machine);
  std::string hint;
  try {
    service::load_fleet_files(folder.path());
  } catch (const service::Failure& failure) {
    hint = failure.diagnostics().at(0).hint;
  }
  CHECK(hint == "rename fleet.yml to fleet.yaml");
}

TEST_CASE("what is there but cannot be read is said") {
  for (const std::string_view name : {"fleet.yaml", "register.csv", "schedules/pump.yaml"}) {
    for (const std::string_view how : {"folder", "dangling link", "pipe"}) {
      const std::string case_of = std::string(name) + " as a " + std::string(how);
      CAPTURE(case_of);
      const Folder folder;
      folder.write("fleet.yaml", fleet_texts::one_machine);
      fs::create_directories(folder.path() / "schedules");
      const fs::path file = folder.path() / name;
      fs::remove(file);
      if (how == "folder") {
        fs::create_directories(file);
      } else if (how == "pipe") {
        REQUIRE(mkfifo(file.c_str(), 0600) == 0);
      } else {
        fs::create_symlink("gone", file);
      }
      CHECK(failure_of(folder.path()) == "74 unreadable-file");
    }
  }
}

TEST_CASE("schedules that are a file are said") {
  const Folder folder;
  folder.write("fleet.yaml", fleet_texts::one_machine);
  folder.write("schedules", "text");
  CHECK(failure_of(folder.path()) == "74 unreadable-file");
}

TEST_CASE("a file that may not be read is said") {
  const Folder folder;
  folder.write("fleet.yaml", fleet_texts::one_machine);
  fs::permissions(folder.path(), fs::perms::all);
  fs::permissions(folder.path() / "fleet.yaml", fs::perms::none);
  // Nothing is forbidden to root, who therefore looks as somebody else.
  const bool root = geteuid() == 0;
  constexpr uid_t nobody = 65534;
  if (root) REQUIRE(seteuid(nobody) == 0);
  const std::string said = failure_of(folder.path());
  if (root) REQUIRE(seteuid(0) == 0);
  CHECK(said == "74 unreadable-file");
}

TEST_CASE("a file beyond the limit is read far enough to see that") {
  const Folder folder;
  folder.write("fleet.yaml", "# " + std::string(std::size_t{9} << 20U, 'x'));
  service::FleetFiles files = service::load_fleet_files(folder.path());
  CHECK(files.texts.at("fleet.yaml").size() == (std::size_t{8} << 20U) + 1);
  CHECK(fleet_texts::codes_of(files) == "file-too-large");
}
