whichever why tractor-drill engine-oil --as-of 2026-06-15
