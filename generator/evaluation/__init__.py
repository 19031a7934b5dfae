"""From records to findings: runs by their methods, pieces, items, pairs."""
