"""Drawn numbers that are the same everywhere: SplitMix64, and a mapping to ranges of our own.

Python's own generator may draw other numbers in another version; a fleet must be the same to the byte.
"""
ALL = (1 << 64) - 1


class Luck:
    def __init__(self, seed):
        self.state = seed & ALL

    def word(self):
        """SplitMix64: the next 64 bits."""
        self.state = (self.state + 0x9E3779B97F4A7C15) & ALL
        z = self.state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & ALL
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & ALL
        return z ^ (z >> 31)

    def below(self, n):
        """0 to n - 1: the upper 32 bits, scaled."""
        return (self.word() >> 32) * n >> 32

    def between(self, low, high):
        """A whole number, both ends included."""
        return low + self.below(high - low + 1)

    def percent(self, share):
        """True in so many of a hundred cases."""
        return self.below(10_000) < share * 100

    def pick(self, choices):
        return choices[self.below(len(choices))]
