"""The same question asked of 50 machines: what an answer about one machine must not cost more than, in a larger fleet."""
TITLE = "50 machines"


def command(place, words):
    return place.other("small").ours(*words)
