# What is put off until a day within the horizon: its time apart, due again from that day, a line of its own to type.
whichever sheet sprayer --within 6w --as-of 2026-06-15
