whichever why generator-main battery --as-of 2026-06-15
whichever why tractor-loader brakes --as-of 2026-06-15
