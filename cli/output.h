// The answer leaves in one piece, and a full disk is noticed.
#pragma once

#include <filesystem>
#include <string_view>

#include "world.h"

namespace cli {

// Fails with io, with this hint. A reader that went away (`| head`) is fine.
void write_out(const World& world, std::string_view text, std::string_view hint);

// Puts a new file in place of the old one, or leaves the old one whole. Refuses symbolic links, what is not a plain
// file, and the files of a fleet. Fails with io or usage.
void write_replacing(const std::filesystem::path& file, std::string_view text, std::string_view hint);

// Makes a file that must not exist yet. Fails with io.
void write_new(const std::filesystem::path& file, std::string_view text);

// Fails with not_found or io.
std::string read_file(const std::filesystem::path& file);

}  // namespace cli
