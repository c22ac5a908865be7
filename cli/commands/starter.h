// The files of a new fleet. Read by the same reader as all others; a test sees to it that they are right.
// DAY stands for a day in the last month, so that the example machine is not overdue on its first day.
#pragma once

#include <string_view>

namespace cli {

inline constexpr std::string_view starter_fleet =
    R"yaml(# yaml-language-server: $schema=.schemas/fleet.schema.json
# Your fleet. Lines that begin with # are remarks. After a change: whichever due
#
# The machine below is an example. Put your own in its place.

fleet: My fleet
time-zone: UTC            # where the machines stand, such as Europe/Oslo; it decides which day "today" is
grace: 5%                 # how far past a due point still counts as due; tasks marked `safety: true` have none
stale-after: 60 days      # after so many days without a reading you are told
# mail: {to: [office@farm.example]}    # who gets the overdue list; how to have it sent: whichever mail --help

sites:
  yard: {name: Home yard}

# Times of the year in which machines must not be down.
seasons:
  harvest: {from: 08-01, to: 09-20}

# Many machines are better listed in a spreadsheet: save it here as register.csv, with the columns machine, name,
# schedule, site, in-service and in-service-at (or bought and bought-at), and if need be serial, conditions, left,
# per-year, notes. A list of your own, as it is, becomes such a fleet with: whichever new DIR --from FILE.csv
machines:
  loader:                                  # the short name you type
    name: Loader tractor
    schedule: example                      # schedules/example.yaml
    site: yard
    in-service: {on: DAY, at: 0}    # put to work new that day, with this on the meter
    # bought: {on: DAY, at: 3250}   # instead, for a used machine
    expect: {per-year: 400}                # hours a year, as a first guess until there are readings
)yaml";

inline constexpr std::string_view starter_schedule =
    R"yaml(# yaml-language-server: $schema=../.schemas/schedule.schema.json
# What machines of one kind need. Every value here is an example; take it from the operator's manual.
# A caution is a name that .schemas/schedule.schema.json lists, or a sentence of your own. What everybody is told who
# goes to a machine (level, key out, chocks ...) comes with every list; only what is special to a task stands here.

schedule: example
example: true         # take this line out once the values are yours; until then every answer says so
meters: {engine: {unit: h}}

tasks:
  engine-oil:
    do: Change engine oil and oil filter
    every: {hours: 250, months: 12}        # example; take it from the operator's manual
    takes: 50 min
    tools: [drain pan, filter wrench, gloves, goggles, lamp, piece of card]
    cautions: [fluid-under-pressure, hot-fluid, hot-surface, used-oil, under-the-machine]
    follow-up:
      check-leaks:                         # example
        do: "Run to temperature, stop, key out; look for leaks with a lamp and a piece of card, never with a hand"
        within: {hours: 1}
        tools: [lamp, piece of card]

  air-filter:
    do: Change the outer air element
    every: {hours: 500, months: 12}        # example; take it from the operator's manual
    takes: 15 min
    tools: [dust mask, damp cloth]
    cautions: [hot-surface, dust-lungs]

  brakes:
    do: Check brakes, steering and wheel nuts
    every: {hours: 500, months: 12, signs: [brake-pull, long-pedal]}   # example; take it from the operator's manual
    safety: true                           # no grace and no putting off
    takes: 1 h
    tools: [chocks, jack, axle stands, torque wrench, damp cloth, lamp]
    cautions: [fluid-under-pressure, hot-surface, engine-running, raised-parts, not-on-the-jack, under-the-machine,
      heavy-parts, tyre-and-rim, asbestos]
)yaml";

}  // namespace cli
