whichever why tractor-yard brakes --as-of 2026-06-15
