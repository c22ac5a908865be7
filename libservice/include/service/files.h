// Files that appear whole or not at all, and are on the disk before anybody says so.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

#pragma GCC visibility push(default)

namespace service {

enum class IfThere { replace, refuse };

// Filled under a name of its own in the same folder, then given its name in one step: under that name there is at every
// moment the old file, the whole new one, or none. `mode` is the permissions that it gets, whatever the umask.
// Fails with io and this hint.
void write_file(const std::filesystem::path& file, std::string_view text, unsigned mode, IfThere if_there,
                std::string_view hint);

// A text that may be longer than memory: gives its pieces one after another, the same ones each time.
using Put = std::function<void(std::string_view piece)>;
using Pieces = std::function<void(const Put& put)>;
void write_file(const std::filesystem::path& file, const Pieces& pieces, unsigned mode, IfThere if_there,
                std::string_view hint);

// Whether a file of this name is what was left where that was cut short.
bool is_temporary(std::string_view name);

// The folder of a file, `.` where its path names none.
std::filesystem::path folder_of(const std::filesystem::path& file);

// Makes the names in a folder durable. The errno of what went wrong, or 0, also where there is no such thing: on some
// file systems, and in a folder that may not be read.
int sync_folder(const std::filesystem::path& folder);

// What the errno of a write means, in one clause: `the disk is full`.
std::string reason_not_written(int error);

}  // namespace service

#pragma GCC visibility pop
