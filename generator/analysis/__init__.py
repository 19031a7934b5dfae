"""Numbers in, numbers out: uncertainty, intervals, heating curves, specimens, comparison."""
