// The answer leaves when all of it is known, and a full disk is noticed.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "service/files.h"
#include "world.h"

namespace cli {

using service::folder_of;
using service::is_temporary;
using service::Pieces;
using service::Put;
using service::sync_folder;

// Fails with io, with this hint. A reader that went away (`| head`) is fine.
void write_out(const World& world, const Pieces& pieces, std::string_view hint);

// Fails with usage where `write_replacing` would refuse the name. Asked before a command does anything.
void insist_replaceable(const std::filesystem::path& file);

// Puts a new file in place of the old one, or leaves the old one whole; one that holds this text already is left alone.
// Refuses symbolic links, what is not a plain file, and the files of a fleet. Fails with io or usage.
void write_replacing(const std::filesystem::path& file, const Pieces& pieces, std::string_view hint);

// Where files are made that go with the process: $TMPDIR, else /tmp.
std::filesystem::path temporary_folder(const World& world);

// Makes a file that must not exist yet, whole or not at all. Fails with io.
void write_new(const std::filesystem::path& file, std::string_view text, std::string_view hint, unsigned mode = 0600);

// Facts of a million rows take a third of this.
inline constexpr std::size_t largest_input = std::size_t{256} << 20U;

bool begins_with(const std::filesystem::path& file, std::string_view text);

// Fails with not_found or io, and with bad_data where it is a folder or larger than that.
std::string read_file(const std::filesystem::path& file);

}  // namespace cli
