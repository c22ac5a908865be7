mkdir f f/schedules
printf 'fleet: F\nmachines:\n  m: {schedule: k, in-service: {on: 2020-01-01, at: 9900}, meters: {engine: {unit: h, rolls-over-at: 10000}}}\n' >f/fleet.yaml
printf 'schedule: k\ntasks:\n  oil: {do: Change oil, every: {hours: 250}}\n' >f/schedules/k.yaml
whichever new f >/dev/null
whichever --fleet f reading m 9990 --as-of 2020-02-01 >/dev/null
whichever --fleet f reading m 15 --as-of 2020-02-03
whichever --fleet f history m --as-of 2020-02-03
