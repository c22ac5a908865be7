whichever due --machine tractor-drill --as-of 2024-03-01
