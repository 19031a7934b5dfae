"""A meter's file into a run or a sitting: what was understood, what is kept, what is written."""
