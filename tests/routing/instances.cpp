#include "routing/instances.h"

#include <cmath>
#include <fstream>
#include <sstream>

namespace test {
namespace {

std::vector<std::vector<double>> numbers_of(const std::string& name) {
  std::ifstream file(SOURCE_DIR "/tests/routing/instances/" + name + ".txt");
  std::vector<std::vector<double>> rows;
  for (std::string line; std::getline(file, line);) {
    std::istringstream words(line);
    std::vector<double> row;
    for (double number = 0; words >> number;) row.push_back(number);
    if (!row.empty()) rows.push_back(std::move(row));
  }
  return rows;
}

Profile profile_of(const std::vector<std::vector<int>>& distances, bool take_time) {
  Profile profile;
  profile.places = static_cast<int>(distances.size());
  for (const auto& row : distances) {
    for (const int distance : row) profile.legs.push_back({take_time ? distance : 0, distance});
  }
  profile.set_ups.resize(distances.size());
  return profile;
}

}  // namespace

Problem with_windows(const std::string& name, int vehicles, int capacity) {
  enum Column { number, x, y, demand, ready, due, service };
  const auto rows = numbers_of(name);
  const auto tenths = [](double value) { return static_cast<int>(value * 10); };
  std::vector<std::vector<int>> distances;
  for (const auto& from : rows) {
    auto& row = distances.emplace_back();
    for (const auto& to : rows) row.push_back(static_cast<int>(10 * std::hypot(from[x] - to[x], from[y] - to[y])));
  }
  Problem problem;
  problem.profiles = {profile_of(distances, true)};
  Shift shift;
  shift.closes = tenths(rows[0][due]);
  shift.capacity = capacity;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    problem.jobs.push_back(
        {static_cast<int>(i), tenths(rows[i][service]), 0, Rank::safety, static_cast<int>(rows[i][demand])});
    shift.options.push_back({true, 0, {{tenths(rows[i][ready]), tenths(rows[i][due] + rows[i][service])}}});
  }
  problem.shifts.assign(static_cast<std::size_t>(vehicles), shift);
  return problem;
}

Problem with_loads(const std::vector<std::vector<int>>& distances, const std::vector<int>& loads, int capacity,
                   int vehicles) {
  Problem problem;
  problem.profiles = {profile_of(distances, false)};
  Shift shift;
  shift.closes = 1;
  shift.capacity = capacity;
  for (std::size_t place = 1; place < distances.size(); ++place) {
    problem.jobs.push_back({static_cast<int>(place), 0, 0, Rank::safety, loads[place - 1]});
    shift.options.push_back({true, 0, {{0, 1}}});
  }
  problem.shifts.assign(static_cast<std::size_t>(vehicles), shift);
  return problem;
}

Problem round_trip(const std::vector<std::vector<int>>& distances) {
  const int nothing_to_load = 1'000'000;
  return with_loads(distances, std::vector<int>(distances.size(), 0), nothing_to_load, 1);
}

std::vector<std::vector<int>> geographic(const std::string& name, std::size_t places) {
  // Coordinates are degrees and minutes (DDD.MM), cut toward zero; the constants are TSPLIB's.
  const auto radians = [](double written) {
    const double degrees = std::trunc(written);
    return 3.141592 * (degrees + 5.0 * (written - degrees) / 3.0) / 180.0;
  };
  auto rows = numbers_of(name);
  rows.resize(places);
  std::vector<std::vector<int>> distances;
  for (const auto& from : rows) {
    auto& row = distances.emplace_back();
    for (const auto& to : rows) {
      const double q1 = std::cos(radians(from[1]) - radians(to[1]));
      const double q2 = std::cos(radians(from[0]) - radians(to[0]));
      const double q3 = std::cos(radians(from[0]) + radians(to[0]));
      const double distance = 6378.388 * std::acos(0.5 * ((1 + q1) * q2 - (1 - q1) * q3)) + 1.0;
      row.push_back(&from == &to ? 0 : static_cast<int>(distance));
    }
  }
  return distances;
}

std::vector<std::vector<int>> lower_triangle(const std::string& name) {
  const auto rows = numbers_of(name);
  std::vector<std::vector<int>> distances(rows.size(), std::vector<int>(rows.size()));
  for (std::size_t i = 0; i < rows.size(); ++i) {
    for (std::size_t j = 0; j <= i; ++j) distances[i][j] = distances[j][i] = static_cast<int>(rows[i][j]);
  }
  return distances;
}

std::vector<std::vector<int>> by_column(const std::string& name) {
  const auto columns = numbers_of(name);
  const std::size_t places = columns.size() + 1;
  std::vector<std::vector<int>> distances(places, std::vector<int>(places));
  for (std::size_t column = 0; column < columns.size(); ++column) {
    for (std::size_t i = 0; i < columns[column].size(); ++i) {
      const std::size_t row = column + 1 + i;
      distances[row][column] = distances[column][row] = static_cast<int>(columns[column][i]);
    }
  }
  return distances;
}

}  // namespace test
